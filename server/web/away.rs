//! Work that goes on beside the requests.

use crate::error::AppError;
use crate::texts::same;
use tracing::Instrument;

/// The lowest priority there is.
const LEAST: i32 = 19;

/// Computes on a thread of its own, in the language of this one, so that other requests go on.
pub async fn away<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, AppError> {
    tokio::task::spawn_blocking(same(work)).await.map_err(|e| AppError::Internal(e.into()))
}

/// Computes on a thread that takes what processor time nobody else wants; what it has freed is given back.
pub async fn aside<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, AppError> {
    let (send, receive) = tokio::sync::oneshot::channel();
    let calm = move || {
        // on Linux of this thread alone; where it is not allowed, the work is done as any other
        let _ = rustix::process::nice(LEAST);
        let _ = send.send(work());
        hilum_memory::give_back();
    };
    std::thread::Builder::new()
        .name("aside".to_owned())
        .spawn(calm)
        .map_err(|e| AppError::Internal(e.into()))?;
    receive.await.map_err(|e| AppError::Internal(e.into()))
}

/// Whoever asked may go away: what was begun holds its place until it is done, and the next one who asks finds it there
/// instead of beginning again beside it.
pub async fn finished<T: Send + 'static>(
    work: impl Future<Output = Result<T, AppError>> + Send + 'static,
) -> Result<T, AppError> {
    tokio::spawn(work.in_current_span()).await.map_err(|e| AppError::Internal(e.into()))?
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[tokio::test]
    async fn what_was_begun_is_done_also_when_nobody_waits_for_it_any_more() {
        let (go, going) = tokio::sync::oneshot::channel::<()>();
        let (tell, told) = tokio::sync::oneshot::channel();
        let work = finished(async move {
            going.await.map_err(|e| AppError::Internal(e.into()))?;
            Ok(tell.send(7))
        });
        assert!(tokio::time::timeout(Duration::from_millis(1), work).await.is_err());
        go.send(()).unwrap();
        assert_eq!(told.await, Ok(7));
    }
}
