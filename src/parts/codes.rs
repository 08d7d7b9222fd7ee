//! Stable codes of facts: one name a variant, in small letters with underscores, for JSON beside the sentence.

/// Gives an enum its method `code` and the list `CODES` of all its codes.
macro_rules! codes {
    ($name:ident { $($variant:ident => $code:literal),+ $(,)? }) => {
        impl $name {
            /// Codes of all variants, in their order.
            pub const CODES: &[&str] = &[$($code),+];

            /// Stable code, for JSON.
            #[must_use]
            pub const fn code(&self) -> &'static str {
                match self {
                    $(Self::$variant { .. } => $code),+
                }
            }
        }
    };
}
pub(in crate::parts) use codes;
