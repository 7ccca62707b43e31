//! The allocator. What a large table or a comparison of sources took goes back to the machine when it is done: the usual
//! allocator keeps most of it, thread by thread, and this one until the next large table is made.

use mimalloc::MiMalloc;

#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

/// Gives back what this thread and those that ended no longer use. To be called after work that took much.
#[expect(unsafe_code, reason = "the binding has no safe way to ask for it")]
pub fn give_back() {
    // SAFETY: looks through the allocator's own lists, under its own locks; nothing in use is touched.
    unsafe { libmimalloc_sys::mi_collect(true) }
}
