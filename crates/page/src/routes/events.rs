//! That something changed, to whoever has the page open: the plan was changed by somebody or by an editor, or the best sizes
//! are known.

use super::{Refusal, plan};
use crate::desk::Desk;
use crate::kept::Kept;
use axum::extract::{Path, State};
use axum::response::sse::{Event, KeepAlive, Sse};
use futures_util::stream::{self, Stream};
use std::convert::Infallible;
use std::sync::Arc;
use std::time::Duration;

/// How often it is looked whether an editor has changed the file.
const LOOK: Duration = Duration::from_millis(700);

pub(super) async fn events(
    State(desk): State<Arc<Desk>>,
    Path(name): Path<String>,
) -> Result<Sse<impl Stream<Item = Result<Event, Infallible>>>, Refusal> {
    let kept = plan(&desk, &name)?;
    let listening = (kept.listen(), kept, String::new());
    let told = stream::unfold(listening, |(mut changed, kept, last)| async move {
        loop {
            let looked = Arc::clone(&kept);
            let tag = tokio::task::spawn_blocking(move || {
                Kept::look(&looked);
                looked.tag()
            });
            let tag = tag.await.ok()?;
            if tag != last {
                let event = Event::default().data(&tag);
                return Some((Ok(event), (changed, kept, tag)));
            }
            let _ = tokio::time::timeout(LOOK, changed.changed()).await;
        }
    });
    Ok(Sse::new(told).keep_alive(KeepAlive::default()))
}
