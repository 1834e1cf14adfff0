//! The app's door: HTTP for this machine only, and the built front end.
//!
//! Nothing is computed here about the roof: a job comes in as the text of a job file and goes out as the plan's values and the
//! scenes of `drawings`. [`openapi`] describes every address.

mod answer;
mod api;
mod books;
mod coverings;
mod examples;
mod exports;
mod front_end;
mod guard;
mod imports;
mod jobs;
mod legs;
mod papers;
mod plans;
mod prices;
mod typed;
mod words;

use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use axum::Router;
use store::Store;
use tokio::net::TcpListener;
use tokio::runtime::Runtime;

pub use api::openapi;

/// How the app is opened.
#[derive(Debug, Clone)]
pub struct Settings {
    /// The port on this machine; 0 for any that is free.
    pub port: u16,
    /// The folder that keeps the jobs; made if it is not there.
    pub data: PathBuf,
}

/// Why the app cannot be opened.
#[derive(Debug, thiserror::Error)]
pub enum Closed {
    /// The folder cannot be made or used.
    #[error("the folder {0} cannot be used: {1}")]
    Folder(PathBuf, io::Error),
    /// The jobs cannot be opened.
    #[error(transparent)]
    Store(#[from] store::Trouble),
    /// The port is taken or forbidden.
    #[error("port {0} cannot be used: {1}")]
    Port(u16, io::Error),
    /// The system refused what a server needs.
    #[error("the server cannot run: {0}")]
    System(#[from] io::Error),
}

/// What every answer is made from.
#[derive(Clone)]
pub(crate) struct App {
    pub(crate) store: Arc<Store>,
}

/// Opens the app, tells its address, and serves until the program is told to end.
///
/// # Errors
/// The folder, the jobs or the port cannot be used.
pub fn serve(settings: &Settings, opened: impl FnOnce(SocketAddr)) -> Result<(), Closed> {
    let store = open(&settings.data)?;
    let runtime = Runtime::new()?;
    runtime.block_on(async {
        let at = SocketAddr::from((Ipv4Addr::LOCALHOST, settings.port));
        let listener = TcpListener::bind(at).await.map_err(|error| Closed::Port(settings.port, error))?;
        let address = listener.local_addr()?;
        opened(address);
        let router = router(store, address.port());
        axum::serve(listener, router).with_graceful_shutdown(told_to_end()).await?;
        Ok(())
    })
}

fn open(data: &Path) -> Result<Store, Closed> {
    std::fs::create_dir_all(data).map_err(|error| Closed::Folder(data.into(), error))?;
    Ok(Store::open(&data.join("jobs.sqlite"))?)
}

async fn told_to_end() {
    // Where the signal cannot be heard, the program ends when it is killed.
    if tokio::signal::ctrl_c().await.is_err() {
        std::future::pending::<()>().await;
    }
}

/// Every address of the app, for requests that name this machine and this port.
pub fn router(store: Store, port: u16) -> Router {
    let app = App { store: Arc::new(store) };
    api::desk()
        .router
        .fallback(front_end::file)
        .layer(axum::middleware::from_fn_with_state(port, guard::guard))
        .with_state(app)
}
