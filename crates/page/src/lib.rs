//! `page`: HTTP to `job` and back, on this machine only unless it is asked to be found on the workshop's network. Each look at
//! a page asks for the plan anew, so that it follows the editor; what was worked out of the same text is kept.
//!
//! | file | what |
//! |---|---|
//! | `routes` | every route, and what it answers |
//! | `desk` | the plans that are open |
//! | `kept` | one of them: its job, what it was before, who hears of changes |
//! | `cabinet`, `shelf` | where plans lie: handed in, so that no file is known here |
//! | `guard`, `pair`, `rate` | who may ask, and how often |
//! | `asked` | what an address asks to see |
//! | `bench` | the page that one works at, made of |
//! | `live` | the circuit as it is in a state |
//! | `vehicle` | the vehicle, its places to be dragged |
//! | `text` | the plan's text |
//! | `form` | the plan in forms |
//! | `found` | what is found |
//! | `steps`, `making`, `start` | build steps with ticks; the pack under way; a new plan |
//! | `prove` | one test a screen, what may be amiss, the next test |
//! | `view` | what every page has around it |
//!
//! All of it works without script: `page.js` saves jumps, follows what is typed, drags.
//!
//! Absent from this room: how anything is worked out; files (shelves are handed in).

mod asked;
mod bench;
mod cabinet;
mod desk;
mod form;
mod found;
mod guard;
mod kept;
mod live;
mod making;
mod pair;
mod prove;
mod rate;
mod routes;
mod shelf;
mod start;
mod steps;
mod text;
mod vehicle;
mod view;

pub use cabinet::{Cabinet, Found};
use desk::Desk;
use job::Source;
pub use pair::Pairing;
pub use shelf::{Refused, Shelf, Stroke, Version};
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;

/// The plan and the user's stock files, or why they can't be had.
pub type Texts = Result<(Source, Vec<Source>), String>;

/// Serves the pages until interrupted. `pairing`: other machines may ask too, once they are paired. `ready` is told the
/// address once it answers.
///
/// # Errors
/// If the port can't be had.
pub fn serve(
    port: u16,
    cabinet: impl Cabinet + 'static,
    pairing: Option<Pairing>,
    ready: impl FnOnce(SocketAddr),
) -> io::Result<()> {
    let runtime = tokio::runtime::Runtime::new()?;
    let at = match pairing {
        Some(_) => Ipv4Addr::UNSPECIFIED,
        None => Ipv4Addr::LOCALHOST,
    };
    runtime.block_on(async {
        let listener = tokio::net::TcpListener::bind((at, port)).await?;
        ready(listener.local_addr()?);
        let desk = Arc::new(Desk::new(Box::new(cabinet), pairing));
        let routes = routes::router(desk).into_make_service_with_connect_info::<SocketAddr>();
        // Whoever listens for changes would keep it from ending: it ends when it is told to.
        tokio::select! {
            served = axum::serve(listener, routes) => served,
            _ = tokio::signal::ctrl_c() => Ok(()),
        }
    })
}
