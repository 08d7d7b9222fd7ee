//! Money: decimal amounts with an ISO 4217 currency, tax, conversion at a rate that the user typed, and what a frameset
//! costs in all.
//!
//! What it is not: a source of rates or of tax law. Every rate is the user's, with its date.
//!
//! Invariant: no binary floating point anywhere in this module; an amount is rounded once, at the end, half up, to the
//! currency's minor unit. A price that is not published is left out, never zero.

mod amount;
mod offer;
mod rate;
mod settings;
mod value;

pub use amount::{Money, MoneyError, read_amount, read_currency, typed_price};
pub use offer::{Charge, ChargeStep, NotPriced, Offer, offer};
pub use rate::{Rate, convert, read_rate};
pub use settings::{MoneySettings, check_rate, read_percent};
pub use value::{Candidate, per_gram, unbeaten};

#[cfg(test)]
mod tests {
    #[test]
    fn no_binary_float_is_in_this_module() {
        let float = |bits: &str| format!("f{bits}");
        for (name, text) in [
            ("amount", include_str!("amount.rs")),
            ("offer", include_str!("offer.rs")),
            ("rate", include_str!("rate.rs")),
            ("settings", include_str!("settings.rs")),
            ("value", include_str!("value.rs")),
        ] {
            for bits in ["64", "32"] {
                assert!(!text.contains(&float(bits)), "{name} holds a binary float");
            }
        }
    }
}
