//! Layouts of small plans, one aspect each.
