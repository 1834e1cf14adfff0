//! Every address in one list, from which both the router and its description are made.

use axum::Router;
use axum::extract::DefaultBodyLimit;
use axum::http::header::CONTENT_TYPE;
use axum::response::IntoResponse;
use axum::routing::{MethodRouter, get, post, put};
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, SchemaGenerator};
use serde_json::{Map, Value, json};

use crate::answer::{LARGEST, Refusal};
use crate::{App, books, coverings, examples, exports, imports, jobs, legs, papers, plans, prices, words};

/// How a word of an address or a query is described.
type SchemaOf = fn(&mut SchemaGenerator) -> Value;

/// Addresses with their descriptions.
pub(crate) struct Desk {
    pub(crate) router: Router<App>,
    paths: Map<String, Value>,
    /// Of what goes out.
    schemas: SchemaGenerator,
    /// Of what comes in, where what has a default may be left out.
    typed: SchemaGenerator,
}

pub(crate) fn desk() -> Desk {
    Desk::new()
        .asked::<Vec<jobs::JobLine>>("/api/jobs", "Every job, the last kept first.", get(jobs::list))
        .told::<jobs::NewJob, jobs::Job>("post", "/api/jobs", "Begins a job.", post(jobs::begin))
        .asked::<Vec<jobs::JobLine>>("/api/put-away", "Jobs that are out of the list.", get(jobs::put_away_jobs))
        .asked::<jobs::Job>("/api/jobs/{id}", "The newest revision.", get(jobs::newest))
        .told::<jobs::Edit, jobs::Job>(
            "put",
            "/api/jobs/{id}",
            "Keeps a revision. 409 with the newest one if another window has saved since: nothing is overwritten.",
            put(jobs::save),
        )
        .told::<jobs::PutAway, ()>("post", "/api/jobs/{id}/away", "Puts a job away or takes it back.", post(jobs::put_away))
        .file("/api/jobs/{id}/file", "The job file, as the command line reads it.", "application/json", get(jobs::file))
        .asked::<Vec<jobs::RevisionLine>>("/api/jobs/{id}/revisions", "The history, newest first.", get(jobs::revisions))
        .asked::<jobs::Job>("/api/jobs/{id}/revisions/{version}", "One revision.", get(jobs::revision))
        .file(
            "/api/jobs/{id}/revisions/{version}/plan.json",
            "Its plan, as the command line prints it.",
            "application/json",
            get(plans::file),
        )
        .taken::<books::PartWord>(
            "/api/jobs/{id}/revisions/{version}/book/{part}",
            "Its job book, as the command line binds it.",
            &["application/pdf"],
            &[
                ("language", subschema::<words::LanguageWord>),
                ("paper", subschema::<books::PaperWord>),
                ("units", subschema::<books::UnitsWord>),
            ],
            get(books::book),
        )
        .taken::<exports::FormatWord>(
            "/api/jobs/{id}/revisions/{version}/export/{format}",
            "Its plan for other programs, as the command line exports it; of csv, one table.",
            &exports::KINDS,
            &[("table", subschema::<exports::TableWord>)],
            get(exports::export),
        )
        .file(
            "/api/jobs/{id}/revisions/{version}/roof-plan.svg",
            "The roof plan.",
            "image/svg+xml",
            get(papers::plan_of_roof),
        )
        .file(
            "/api/jobs/{id}/revisions/{version}/setting-out/{plane}",
            "The setting-out sheet of a plane.",
            "image/svg+xml",
            get(papers::of_plane),
        )
        .asked::<papers::OnSheet>(
            "/api/jobs/{id}/revisions/{version}/setting-out/{plane}/place",
            "Where the plane lies on that sheet.",
            get(papers::place_of_plane),
        )
        .lettered("/api/jobs/{id}/revisions/{version}/setting-out/{plane}")
        .lettered("/api/jobs/{id}/revisions/{version}/setting-out/{plane}/place")
        .told::<plans::JobText, plans::Planned>("post", "/api/plan", "Plans a job.", post(plans::planned))
        .told::<plans::JobText, plans::Raised>("post", "/api/roof", "Raises only the roof of a job.", post(plans::raised))
        .told::<plans::JobText, prices::Prices>("post", "/api/price", "Prices a job and its options.", post(prices::prices))
        .asked::<prices::ShippedRates>("/api/rates", "The rates that ship, to be copied. Invented.", get(prices::shipped))
        .told::<words::ToSay, Vec<String>>(
            "post",
            "/api/words",
            "Says in another language what a plan says in English; as it stands where there is no form of it.",
            post(words::said),
        )
        .told::<legs::Walk, legs::Walked>("post", "/api/walk", "Corners from typed legs.", post(legs::walk))
        .told::<legs::Stretch, Vec<[String; 2]>>("post", "/api/stretch", "Gives a side a length.", post(legs::stretch))
        .asked::<Vec<examples::Example>>("/api/examples", "Houses to begin from. Invented.", get(examples::list))
        .asked::<Vec<coverings::Sheet>>("/api/coverings", "The covering sheets that ship.", get(coverings::list))
        .import("/api/import", "Reads a job file or a drawing; nothing is kept.", post(imports::read))
        .file("/api/openapi.json", "This description.", "application/json", get(described))
        .closed()
}

async fn described() -> impl IntoResponse {
    ([(CONTENT_TYPE, "application/json")], openapi())
}

/// The OpenAPI 3.1 description of every address, with a line end after it.
#[must_use]
pub fn openapi() -> String {
    let mut desk = desk();
    desk.schemas.subschema_for::<Refusal>();
    let mut schemas = desk.schemas.take_definitions(true);
    schemas.extend(desk.typed.take_definitions(true));
    schemas.extend(job_file());
    let document = json!({
        "openapi": "3.1.0",
        "info": {
            "title": "headlap",
            "version": env!("CARGO_PKG_VERSION"),
            "description": "The app's own door, for this machine only. It changes with the program.",
        },
        "paths": desk.paths,
        "components": { "schemas": schemas },
    });
    format!("{document:#}\n")
}

fn generator(settings: SchemaSettings) -> SchemaGenerator {
    settings.with(|settings| settings.definitions_path = "/components/schemas".into()).into_generator()
}

/// What a text of a job holds, described as it is typed.
fn job_file() -> Map<String, Value> {
    let mut typed = generator(SchemaSettings::draft2020_12().for_deserialize());
    typed.subschema_for::<plan::JobFile>();
    typed.take_definitions(true)
}

impl Desk {
    fn new() -> Self {
        let schemas = generator(SchemaSettings::draft2020_12().for_serialize());
        let typed = generator(SchemaSettings::draft2020_12().for_deserialize());
        Self { router: Router::new(), paths: Map::new(), schemas, typed }
    }

    fn asked<Out: JsonSchema>(self, path: &'static str, says: &str, handler: MethodRouter<App>) -> Self {
        self.route::<Out>("get", path, says, None, handler)
    }

    fn told<In: JsonSchema, Out: JsonSchema>(
        mut self,
        method: &str,
        path: &'static str,
        says: &str,
        handler: MethodRouter<App>,
    ) -> Self {
        let schema = self.typed.subschema_for::<In>();
        let body = json!({ "required": true, "content": { "application/json": { "schema": schema } } });
        self.route::<Out>(method, path, says, Some(body), handler)
    }

    /// A file is sent as it is, what is known of it stands in the query.
    fn import(self, path: &'static str, says: &str, handler: MethodRouter<App>) -> Self {
        let body = json!({ "required": true, "content": { "application/octet-stream": {} } });
        let mut desk = self.route::<imports::Found>("post", path, says, Some(body), handler);
        let query =
            |name: &str, schema: Value| json!({ "name": name, "in": "query", "required": name == "name", "schema": schema });
        let text = json!({ "type": "string" });
        let unit = json!({ "enum": ["ft", "in", "m", "mm"] });
        desk.paths[path]["post"]["parameters"] =
            json!([query("name", text.clone()), query("units", unit), query("layer", text)]);
        desk
    }

    fn file(mut self, path: &'static str, says: &str, kind: &str, handler: MethodRouter<App>) -> Self {
        let responses = json!({
            "200": { "description": says, "content": { kind: {} } },
            "default": refused(&mut self.schemas),
        });
        self.describe("get", path, says, responses, None);
        Self { router: self.router.route(path, handler), ..self }
    }

    /// A file to take along: the last step of the address is one of the words of `Last`, the query holds more words by name.
    fn taken<Last: JsonSchema>(
        mut self,
        path: &'static str,
        says: &str,
        kinds: &[&str],
        query: &[(&str, SchemaOf)],
        handler: MethodRouter<App>,
    ) -> Self {
        let content: Map<String, Value> = kinds.iter().map(|kind| ((*kind).to_owned(), json!({}))).collect();
        let responses = json!({
            "200": { "description": says, "content": content },
            "default": refused(&mut self.schemas),
        });
        self.describe("get", path, says, responses, None);
        let last = subschema::<Last>(&mut self.typed);
        if let Some(parameter) = self.paths[path]["get"]["parameters"].as_array_mut().and_then(|all| all.last_mut()) {
            parameter["schema"] = last;
        }
        let desk = Self { router: self.router.route(path, handler), ..self };
        query.iter().fold(desk, |desk, (name, schema)| desk.asking(path, name, *schema))
    }

    /// A drawing whose language may be asked for.
    fn lettered(self, path: &str) -> Self {
        self.asking(path, "language", subschema::<words::LanguageWord>)
    }

    /// One more word in the query of what is got.
    fn asking(mut self, path: &str, name: &str, schema: SchemaOf) -> Self {
        let schema = schema(&mut self.typed);
        if let Some(parameters) = self.paths[path]["get"]["parameters"].as_array_mut() {
            parameters.push(json!({ "name": name, "in": "query", "required": false, "schema": schema }));
        }
        self
    }

    fn route<Out: JsonSchema>(
        mut self,
        method: &str,
        path: &'static str,
        says: &str,
        body: Option<Value>,
        handler: MethodRouter<App>,
    ) -> Self {
        let schema = self.schemas.subschema_for::<Out>();
        let mut responses = json!({
            "200": { "description": says, "content": { "application/json": { "schema": schema } } },
            "default": refused(&mut self.schemas),
        });
        if method == "put" {
            responses["409"] = responses["200"].clone();
        }
        self.describe(method, path, says, responses, body);
        Self { router: self.router.route(path, handler), ..self }
    }

    fn describe(&mut self, method: &str, path: &str, says: &str, responses: Value, body: Option<Value>) {
        let mut operation = json!({ "summary": says, "responses": responses });
        if let Some(body) = body {
            operation["requestBody"] = body;
        }
        let parameters: Vec<Value> = path.split('/').filter_map(parameter).collect();
        if !parameters.is_empty() {
            operation["parameters"] = parameters.into();
        }
        self.paths.entry(path).or_insert_with(|| json!({}))[method] = operation;
    }

    /// Bodies are bounded, and the wrong method is told in words too.
    fn closed(self) -> Self {
        let wrong = async || {
            let status = axum::http::StatusCode::METHOD_NOT_ALLOWED;
            Refusal::new(status, "this address takes another method", "See /api/openapi.json.").into_response()
        };
        Self { router: self.router.layer(DefaultBodyLimit::max(LARGEST)).method_not_allowed_fallback(wrong), ..self }
    }
}

fn subschema<Word: JsonSchema>(schemas: &mut SchemaGenerator) -> Value {
    schemas.subschema_for::<Word>().into()
}

fn refused(schemas: &mut SchemaGenerator) -> Value {
    let schema = schemas.subschema_for::<Refusal>();
    json!({ "description": "Why not, in words.", "content": { "application/json": { "schema": schema } } })
}

fn parameter(step: &str) -> Option<Value> {
    let name = step.strip_prefix('{')?.strip_suffix('}')?;
    let kind = if name == "plane" { "string" } else { "integer" };
    Some(json!({ "name": name, "in": "path", "required": true, "schema": { "type": kind } }))
}
