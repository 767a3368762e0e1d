//! Limits.
