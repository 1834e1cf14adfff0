//! What goes out, and what comes in: JSON, and refusals in words.

use axum::Json;
use axum::body::Bytes;
use axum::extract::{FromRequest, FromRequestParts, Path, Query, Request};
use axum::http::StatusCode;
use axum::http::request::Parts;
use axum::response::{IntoResponse, Response};
use schemars::JsonSchema;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

/// The largest body: a job file is a few thousand bytes.
pub(crate) const LARGEST: usize = 4 << 20;

/// Why a request was not done.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub(crate) struct Refusal {
    #[serde(skip)]
    pub(crate) status: u16,
    /// What is wrong.
    pub(crate) says: String,
    /// What to do.
    pub(crate) remedy: String,
}

impl Refusal {
    pub(crate) fn new(status: StatusCode, says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self { status: status.as_u16(), says: says.into(), remedy: remedy.into() }
    }

    pub(crate) fn bad(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(StatusCode::BAD_REQUEST, says, remedy)
    }

    /// Something that must not happen.
    pub(crate) fn fault(says: impl Into<String>) -> Self {
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, says, "Report it with the job file: this is a fault of the program.")
    }

    pub(crate) fn absent(what: &str) -> Self {
        Self::new(StatusCode::NOT_FOUND, format!("there is no such {what}"), "Go back to the list of jobs.")
    }
}

impl From<store::Trouble> for Refusal {
    fn from(trouble: store::Trouble) -> Self {
        let remedy = "Nothing was changed. Look whether the disk is full or the data folder was moved, then try again.";
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, trouble.to_string(), remedy)
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        let status = StatusCode::from_u16(self.status).unwrap_or(StatusCode::INTERNAL_SERVER_ERROR);
        (status, Json(self)).into_response()
    }
}

/// The body of a request, read from JSON.
pub(crate) struct Body<T>(pub(crate) T);

impl<T: DeserializeOwned, S: Send + Sync> FromRequest<S> for Body<T> {
    type Rejection = Refusal;

    async fn from_request(request: Request, state: &S) -> Result<Self, Refusal> {
        let Raw(bytes) = Raw::from_request(request, state).await?;
        serde_json::from_slice(&bytes)
            .map(Self)
            .map_err(|error| Refusal::bad(format!("the request cannot be read: {error}"), "See /api/openapi.json."))
    }
}

/// The bytes of a request.
pub(crate) struct Raw(pub(crate) Bytes);

impl<S: Send + Sync> FromRequest<S> for Raw {
    type Rejection = Refusal;

    async fn from_request(request: Request, state: &S) -> Result<Self, Refusal> {
        Bytes::from_request(request, state).await.map(Self).map_err(|refused| {
            let says = match refused.status() {
                StatusCode::PAYLOAD_TOO_LARGE => "the request is too large".into(),
                _ => format!("the request cannot be read: {}", refused.body_text()),
            };
            Refusal::new(refused.status(), says, "Send less at once.")
        })
    }
}

/// What stands in the address.
pub(crate) struct At<T>(pub(crate) T);

impl<T: DeserializeOwned + Send, S: Send + Sync> FromRequestParts<S> for At<T> {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, Refusal> {
        let Path(at) = Path::from_request_parts(parts, state).await.map_err(|_| Refusal::absent("address"))?;
        Ok(Self(at))
    }
}

/// What stands behind the address.
pub(crate) struct Asked<T>(pub(crate) T);

impl<T: DeserializeOwned + Send, S: Send + Sync> FromRequestParts<S> for Asked<T> {
    type Rejection = Refusal;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, Refusal> {
        let Query(asked) = Query::from_request_parts(parts, state)
            .await
            .map_err(|error| Refusal::bad(error.body_text(), "See /api/openapi.json."))?;
        Ok(Self(asked))
    }
}

/// Work that keeps a processor busy, off the threads that listen.
pub(crate) async fn work<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Result<T, Refusal> {
    tokio::task::spawn_blocking(work).await.map_err(|_| {
        let remedy = "Nothing was changed. Undo the last step, and report the job file: this is a fault of the program.";
        Refusal::new(StatusCode::INTERNAL_SERVER_ERROR, "the planner stopped at this job", remedy)
    })
}
