//! HTTP tests.
