//! Files that take long to make: made beside the request, which waits a little and else takes the last one that was
//! made.

use super::away::finished;
use crate::error::AppError;
use axum::body::Bytes;
use std::collections::HashMap;
use std::hash::Hash;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};
use tokio::sync::Semaphore;

/// How long a request waits.
const PATIENCE: Duration = Duration::from_millis(700);
/// How long a file is good for somebody whose own is not made in time.
const GOOD_FOR: Duration = Duration::from_secs(300);
/// How many files are kept at once.
const MOST: usize = 4;
/// How many wait to be made at once.
const WAITING: usize = 8;

/// The files of one sort by what was asked for; clones share them.
#[derive(Debug)]
pub struct Files<K> {
    patience: Duration,
    kept: Arc<Mutex<HashMap<K, Made>>>,
    /// One file is made at a time.
    turn: Arc<tokio::sync::Mutex<()>>,
    waiting: Arc<Semaphore>,
}

#[derive(Debug, Clone)]
struct Made {
    /// When its making began: whatever was saved before is in it.
    begun: Instant,
    file: Bytes,
}

impl<K> Clone for Files<K> {
    fn clone(&self) -> Self {
        Self {
            patience: self.patience,
            kept: self.kept.clone(),
            turn: self.turn.clone(),
            waiting: self.waiting.clone(),
        }
    }
}

impl<K> Default for Files<K> {
    fn default() -> Self {
        Self::patient(PATIENCE)
    }
}

impl<K> Files<K> {
    /// Files for whose making a request waits this long.
    pub fn patient(patience: Duration) -> Self {
        let waiting = Arc::new(Semaphore::new(WAITING));
        Self { patience, kept: Arc::default(), turn: Arc::default(), waiting }
    }
}

impl<K: Eq + Hash + Clone + Send + 'static> Files<K> {
    /// The file that `make` makes; where that takes too long the last one, which must say how old it is. `None` where
    /// there is none: it is being made, and can be asked for again.
    pub async fn get(
        &self,
        key: K,
        make: impl Future<Output = Result<Bytes, AppError>> + Send + 'static,
    ) -> Result<Option<Bytes>, AppError> {
        let Ok(place) = self.waiting.clone().try_acquire_owned() else { return Ok(self.last(&key)) };
        let (files, wanted, asked) = (self.clone(), key.clone(), Instant::now());
        let work = async move {
            let made = files.made(wanted, asked, make).await;
            drop(place);
            made.inspect_err(|error| tracing::warn!("a file was not made: {error}"))
        };
        match tokio::time::timeout(self.patience, finished(work)).await {
            Ok(made) => made.map(Some),
            Err(_) => Ok(self.last(&key)),
        }
    }

    /// Makes it, unless somebody began to since it was `asked` for.
    async fn made(
        &self,
        key: K,
        asked: Instant,
        make: impl Future<Output = Result<Bytes, AppError>>,
    ) -> Result<Bytes, AppError> {
        let _turn = self.turn.lock().await;
        if let Some(made) = self.with(|kept| kept.get(&key).filter(|made| made.begun >= asked).cloned()) {
            return Ok(made.file);
        }
        let begun = Instant::now();
        let file = make.await?;
        self.with(|kept| {
            kept.retain(|_, made| made.begun.elapsed() < GOOD_FOR);
            if kept.len() >= MOST {
                kept.clear();
            }
            kept.insert(key, Made { begun, file: file.clone() });
        });
        Ok(file)
    }

    fn last(&self, key: &K) -> Option<Bytes> {
        let good = |made: &&Made| made.begun.elapsed() < GOOD_FOR;
        self.with(|kept| kept.get(key).filter(good).map(|made| made.file.clone()))
    }

    fn with<T>(&self, what: impl FnOnce(&mut HashMap<K, Made>) -> T) -> T {
        what(&mut self.kept.lock().unwrap_or_else(PoisonError::into_inner))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Asks for a file that says `text` after so many milliseconds.
    async fn asked(files: &Files<u8>, text: &'static str, ms: u64) -> Option<Bytes> {
        let make = async move {
            tokio::time::sleep(Duration::from_millis(ms)).await;
            Ok(Bytes::from(text))
        };
        files.get(1, make).await.unwrap()
    }

    #[tokio::test]
    async fn who_cannot_wait_takes_the_last_one() {
        let files = Files::patient(Duration::from_millis(100));
        assert_eq!(asked(&files, "quick", 0).await.as_deref(), Some(b"quick".as_slice()));
        assert_eq!(asked(&files, "slow", 300).await.as_deref(), Some(b"quick".as_slice()));
        tokio::time::sleep(Duration::from_millis(400)).await;
        assert_eq!(asked(&files, "slower", 300).await.as_deref(), Some(b"slow".as_slice()));
        assert_eq!(files.get(2, std::future::pending()).await.unwrap(), None);
    }

    #[tokio::test]
    async fn a_crowd_has_it_made_twice_at_most() {
        let (files, made) = (Files::patient(Duration::from_secs(60)), Arc::new(Mutex::new(0)));
        let ask = || {
            let made = made.clone();
            let make = async move {
                tokio::time::sleep(Duration::from_millis(50)).await;
                *made.lock().unwrap() += 1;
                Ok(Bytes::from("file"))
            };
            files.get(1, make)
        };
        let all = futures_util::future::join_all((0..WAITING).map(|_| ask())).await;
        assert!(all.into_iter().all(|file| file.unwrap().is_some()));
        assert!(*made.lock().unwrap() <= 2, "{made:?}");
    }
}
