//! figures
