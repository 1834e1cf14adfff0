//! The built front end, which is inside the program.

use axum::http::header::{CACHE_CONTROL, CONTENT_TYPE};
use axum::http::{Method, StatusCode, Uri};
use axum::response::{IntoResponse, Response};

use crate::answer::Refusal;

include!(concat!(env!("OUT_DIR"), "/front_end.rs"));

const NOT_BUILT: &str = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>headlap</title><h1>The screens are not built \
                         yet</h1><p>This program was compiled without its front end. In the folder of the project run <code>make \
                         serve</code>: it builds the front end, compiles the program with it and opens it. It needs Node.js 20 or \
                         later with npm.</p>";

/// A file of the front end; for any other address that a person may have typed or kept, the app itself.
pub(crate) async fn file(method: Method, at: Uri) -> Response {
    let path = at.path().trim_start_matches('/');
    if path.starts_with("api/") || path == "api" {
        return Refusal::absent("address").into_response();
    }
    if !matches!(method, Method::GET | Method::HEAD) {
        return Refusal::new(StatusCode::METHOD_NOT_ALLOWED, "this address is only read", "See /api/openapi.json.")
            .into_response();
    }
    let is_page = !path.contains('.');
    match FILES.iter().find(|(name, _)| *name == if is_page { "index.html" } else { path }) {
        Some((name, bytes)) => ([(CONTENT_TYPE, kind(name)), (CACHE_CONTROL, kept(name))], *bytes).into_response(),
        None if is_page => {
            (StatusCode::SERVICE_UNAVAILABLE, [(CONTENT_TYPE, "text/html; charset=utf-8")], NOT_BUILT).into_response()
        }
        None => Refusal::absent("file").into_response(),
    }
}

fn kind(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("html") => "text/html; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("css") => "text/css; charset=utf-8",
        Some("svg") => "image/svg+xml",
        Some("woff2") => "font/woff2",
        _ => "application/octet-stream",
    }
}

/// The names of files in `assets/` change with what is in them.
fn kept(name: &str) -> &'static str {
    if name.starts_with("assets/") { "public, max-age=31536000, immutable" } else { "no-cache" }
}
