use crate::error::AppError;
use crate::texts::same;

/// Computes on a thread of its own, in the language of this one, so that other requests go on.
pub async fn away<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, AppError> {
    tokio::task::spawn_blocking(same(work)).await.map_err(|e| AppError::Internal(e.into()))
}
