//! Watching a garment: it is worked out again when it is saved, and shown on a page of this machine.
//!
//! [`Desk`] holds what was last right and what is wrong now; [`eye`](Eye) notices that a file was saved; [`Server`] shows the
//! desk on a loopback address and nowhere else. Pages are set when somebody looks at them and kept as long as what they
//! are made from stays the same. A value can be tried ([`tried`]) without writing it anywhere.

mod desk;
mod eye;
mod figures;
mod http;
mod inputs;
mod pages;
mod routes;
mod server;
mod tried;

pub use desk::{Desk, Shown};
pub use eye::Eye;
pub use http::{Limits, Method, Request, Response, read_request};
pub use inputs::{Input, inputs};
pub use server::Server;
pub use tried::{Tried, tried};
