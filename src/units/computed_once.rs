//! A value that is computed when it is first asked for.

use std::sync::OnceLock;

/// A value that is computed when it is first asked for. Any two are equal: it must follow from what stands beside it.
#[derive(Clone, Debug)]
pub struct ComputedOnce<T>(OnceLock<T>);

impl<T> Default for ComputedOnce<T> {
    fn default() -> Self {
        Self(OnceLock::new())
    }
}

impl<T> PartialEq for ComputedOnce<T> {
    fn eq(&self, _other: &Self) -> bool {
        true
    }
}

impl<T> ComputedOnce<T> {
    /// The value, computed by the first caller. Every caller must compute the same.
    pub fn get(&self, compute: impl FnOnce() -> T) -> &T {
        self.0.get_or_init(compute)
    }
}
