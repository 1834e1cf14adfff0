//! Who may ask: only a page that this program served itself, on this machine.

use axum::extract::{Request, State};
use axum::http::header::{
    CACHE_CONTROL, CONTENT_SECURITY_POLICY, CONTENT_TYPE, HOST, ORIGIN, REFERRER_POLICY, X_CONTENT_TYPE_OPTIONS,
};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

use crate::answer::Refusal;

/// Nothing from elsewhere, no inline script, no frame around us.
const POLICY: &str = "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'none'; \
                      frame-ancestors 'none'";

/// Another page in the same browser can send requests here, and a name of its own can be made to lead here; both are refused.
pub(crate) async fn guard(State(port): State<u16>, request: Request, next: Next) -> Response {
    let is_api = request.uri().path().starts_with("/api/");
    let mut response = match refusal(port, &request) {
        Some(refusal) => refusal.into_response(),
        None => next.run(request).await,
    };
    let headers = response.headers_mut();
    set(headers, CONTENT_SECURITY_POLICY, POLICY);
    set(headers, X_CONTENT_TYPE_OPTIONS, "nosniff");
    set(headers, REFERRER_POLICY, "no-referrer");
    set(headers, HeaderName::from_static("cross-origin-opener-policy"), "same-origin");
    set(headers, HeaderName::from_static("cross-origin-resource-policy"), "same-origin");
    if is_api {
        set(headers, CACHE_CONTROL, "no-store");
    }
    response
}

/// Unless the answer has its own.
fn set(headers: &mut HeaderMap, name: HeaderName, value: &'static str) {
    headers.entry(name).or_insert(HeaderValue::from_static(value));
}

fn refusal(port: u16, request: &Request) -> Option<Refusal> {
    let text = |name| request.headers().get(name).map(|value| value.to_str().unwrap_or_default());
    let ours = ["127.0.0.1", "localhost", "[::1]"].map(|host| format!("{host}:{port}"));
    let remedy = "Open the address that the program printed when it started.";
    let host = text(HOST).or(request.uri().authority().map(|authority| authority.as_str()));
    if !host.is_some_and(|host| ours.iter().any(|own| own == host)) {
        return Some(Refusal::new(StatusCode::MISDIRECTED_REQUEST, "this address is not this program's", remedy));
    }
    let from_elsewhere = |origin: &str| !ours.iter().any(|own| origin == format!("http://{own}"));
    let site = text(HeaderName::from_static("sec-fetch-site"));
    if text(ORIGIN).is_some_and(from_elsewhere) || (is_change(request) && site.is_some_and(|site| site != "same-origin")) {
        return Some(Refusal::new(StatusCode::FORBIDDEN, "the request comes from another page", remedy));
    }
    // A form of another page cannot send these kinds of bodies without asking first.
    let kind = text(CONTENT_TYPE).map(|kind| kind.split(';').next().unwrap_or_default().trim());
    let is_known = matches!(kind, Some("application/json" | "application/octet-stream"));
    (is_change(request) && !is_known).then(|| {
        let says = "a change is sent as application/json, a file as application/octet-stream";
        Refusal::new(StatusCode::UNSUPPORTED_MEDIA_TYPE, says, "Set Content-Type.")
    })
}

fn is_change(request: &Request) -> bool {
    !matches!(*request.method(), Method::GET | Method::HEAD)
}
