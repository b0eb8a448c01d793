//! Axlewright core.
