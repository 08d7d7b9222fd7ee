//! Why a verdict is what it is: one enum a family of parts, each variant one finding of a rule, with its numbers.

use super::reasons::{
    BrakeReason, CarryingReason, CrankReason, DerailleurReason, DropoutReason, ForkLengthReason, HeadsetReason, HubReason,
    RimReason, RotorReason, SeatPostReason, ShellReason, SteererReason, TyreReason,
};
use super::stated::Unknown;

macro_rules! families {
    ($($(#[doc = $doc:literal])* $family:ident($inner:ident)),+ $(,)?) => {
        /// A reason of a verdict.
        #[derive(Clone, Debug, PartialEq)]
        pub enum Reason {
            $($(#[doc = $doc])* $family($inner)),+
        }

        impl Reason {
            /// Stable code, for JSON.
            #[must_use]
            pub const fn code(&self) -> &'static str {
                match self {
                    $(Self::$family(inner) => inner.code()),+
                }
            }

            /// Codes of all reasons, family by family.
            #[must_use]
            pub fn codes() -> Vec<&'static str> {
                [$($inner::CODES),+].concat()
            }
        }

        $(impl From<$inner> for Reason {
            fn from(inner: $inner) -> Self {
                Self::$family(inner)
            }
        })+
    };
}

families! {
    /// A standard is not published, or not understood.
    Unknown(Unknown),
    /// Of a hub.
    Hub(HubReason),
    /// Of a crank.
    Crank(CrankReason),
    /// Of a bottom bracket.
    Shell(ShellReason),
    /// Of a caliper.
    Brake(BrakeReason),
    /// Of a rotor.
    Rotor(RotorReason),
    /// Of a headset.
    Headset(HeadsetReason),
    /// Of a fork's steerer.
    Steerer(SteererReason),
    /// Of a fork's length.
    ForkLength(ForkLengthReason),
    /// Of a seat post.
    SeatPost(SeatPostReason),
    /// Of a tyre.
    Tyre(TyreReason),
    /// Of rims.
    Rim(RimReason),
    /// Of cages, racks and mudguards.
    Carrying(CarryingReason),
    /// Of a front derailleur.
    Derailleur(DerailleurReason),
    /// Of a gear hub or belt in dropouts.
    Dropout(DropoutReason),
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::{Caution, Extra};

    #[test]
    fn every_code_is_its_own_and_small() {
        for mut codes in [Reason::codes(), Extra::CODES.to_vec(), Caution::CODES.to_vec()] {
            assert!(codes.iter().all(|c| c.bytes().all(|b| b.is_ascii_lowercase() || b == b'_')), "{codes:?}");
            let count = codes.len();
            codes.sort_unstable();
            codes.dedup();
            assert_eq!(codes.len(), count);
        }
    }
}
