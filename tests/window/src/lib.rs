//! Nothing but tests lives here.
