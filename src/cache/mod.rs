//! What was made before, kept by what it was made from.
//!
//! A stage that is worth keeping takes a [`Store`] from its caller, makes a [`Key`] from all its inputs and asks
//! [`cached`]; it never sees a disk. The pipeline hands it a [`Folder`] (files beside the outputs), a [`Memory`] (a long
//! watch) or [`Nothing`]. A key holds the fingerprint of the program itself, so that an entry never outlives the code that
//! made it.
//!
//! Nothing here can fail: an entry that is not there, is torn, or is not what its checksum says counts as not kept, and what
//! cannot be kept is made again next time. The folder may be deleted at any moment.

mod folder;
mod key;
mod memory;
mod store;

pub use folder::Folder;
pub use key::{Key, KeyMaker, MADE_FROM};
pub use memory::Memory;
pub use store::{Nothing, Store, cached};
