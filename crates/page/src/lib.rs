//! `page`: HTTP to `job` and back, on this machine only. Each look at the page asks for the plan anew, so
//! that it follows the editor; what was worked out of the same text is kept.
//!
//! | file | what |
//! |---|---|
//! | `routes` | every route, and what it answers |
//! | `kept` | the job as it was last read |
//! | `chosen` | a state as an address |
//! | `live` | the circuit as it is in that state; `live.js` saves the jump from one to the next |
//! | `plan` | the plan's text: shown, changed, kept |
//! | `shelf` | where it lies: handed in, so that no file is known here |
//! | `guard` | who may ask |
//! | `view` | the other pages |
//!
//! Absent from this room: how anything is worked out; files (the caller hands texts in).

mod chosen;
mod guard;
mod kept;
mod live;
mod plan;
mod routes;
mod shelf;
mod view;

use job::Source;
use kept::Kept;
pub use shelf::{Refused, Shelf, Version};
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;

/// The plan and the user's stock files, or why they can't be had.
pub type Texts = Result<(Source, Vec<Source>), String>;

/// Serves the page until interrupted. The shelf is asked for the texts at every look; `ready` is told
/// the address once it answers.
pub fn serve(
    port: u16,
    shelf: impl Shelf + 'static,
    ready: impl FnOnce(SocketAddr),
) -> io::Result<()> {
    let runtime = tokio::runtime::Runtime::new()?;
    runtime.block_on(async {
        let listener = tokio::net::TcpListener::bind((Ipv4Addr::LOCALHOST, port)).await?;
        ready(listener.local_addr()?);
        let until = async {
            // Without a signal to wait for, it simply serves on.
            if tokio::signal::ctrl_c().await.is_err() {
                std::future::pending::<()>().await;
            }
        };
        axum::serve(
            listener,
            routes::router(Arc::new(Kept::new(Box::new(shelf)))),
        )
        .with_graceful_shutdown(until)
        .await
    })
}
