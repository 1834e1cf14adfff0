//! The door as a browser meets it.

use axum::body::{Body, to_bytes};
use axum::http::{Request, StatusCode};
use serde_json::{Value, json};
use server::{openapi, router};
use store::Store;
use tower::ServiceExt;

const HOST: &str = "127.0.0.1:4321";

struct Door(axum::Router);

struct Got {
    status: StatusCode,
    headers: axum::http::HeaderMap,
    text: String,
}

impl Got {
    fn json(&self) -> Value {
        serde_json::from_str(&self.text).unwrap_or_else(|_| panic!("no JSON: {}", self.text))
    }
}

impl Door {
    fn new() -> Self {
        Self(router(Store::in_memory().expect("memory"), 4321))
    }

    async fn send(&self, request: Request<Body>) -> Got {
        let response = self.0.clone().oneshot(request).await.expect("an answer");
        let (status, headers) = (response.status(), response.headers().clone());
        let bytes = to_bytes(response.into_body(), usize::MAX).await.expect("a body");
        Got { status, headers, text: String::from_utf8_lossy(&bytes).into_owned() }
    }

    async fn get(&self, path: &str) -> Got {
        self.send(Request::get(path).header("host", HOST).body(Body::empty()).expect("a request")).await
    }

    async fn tell(&self, method: &str, path: &str, body: impl Into<Body>) -> Got {
        let request = Request::builder().method(method).uri(path).header("host", HOST);
        self.send(request.header("content-type", "application/json").body(body.into()).expect("a request")).await
    }

    async fn begin(&self, text: &str) -> i64 {
        let got = self.tell("POST", "/api/jobs", json!({ "text": text, "what": "new" }).to_string()).await;
        assert_eq!(got.status, StatusCode::OK, "{}", got.text);
        got.json()["id"].as_i64().expect("an id")
    }
}

async fn ell(door: &Door) -> String {
    let examples = door.get("/api/examples").await.json();
    let of = |shows: &str| examples.as_array()?.iter().find(|example| example["shows"] == shows)?["text"].as_str();
    of("An L with a gabled wing").expect("it is there").to_owned()
}

#[tokio::test]
async fn a_job_is_begun_edited_and_planned() {
    let door = Door::new();
    let text = ell(&door).await;
    let id = door.begin(&text).await;
    let edit = json!({ "base": 1, "text": text.replace("Heron house", "Heron hall"), "what": "named" }).to_string();
    let saved = door.tell("PUT", &format!("/api/jobs/{id}"), edit.clone()).await;
    assert_eq!((saved.status, saved.json()["version"].as_i64()), (StatusCode::OK, Some(2)));
    let late = door.tell("PUT", &format!("/api/jobs/{id}"), edit).await;
    assert_eq!((late.status, late.json()["version"].as_i64()), (StatusCode::CONFLICT, Some(2)), "nothing is overwritten");
    assert_eq!(door.get("/api/jobs").await.json()[0]["name"], "Heron hall");
    assert_eq!(door.get(&format!("/api/jobs/{id}/revisions")).await.json().as_array().map(Vec::len), Some(2));
    let planned = door.tell("POST", "/api/plan", json!({ "text": text }).to_string()).await.json();
    assert_eq!(planned["plan"]["roof"]["planes"].as_array().map(Vec::len), Some(4));
}

#[tokio::test]
async fn the_screens_plan_has_the_bytes_of_the_saved_job_file() {
    let door = Door::new();
    let id = door.begin(&ell(&door).await).await;
    let file = door.get(&format!("/api/jobs/{id}/file")).await;
    assert_eq!(file.headers["content-disposition"], "attachment; filename=\"heron-house.json\"");
    let (job, mistakes) = plan::read_job(&file.text, reader::Format::Json);
    assert_eq!(mistakes, []);
    let own = plan::plan(&job.unwrap(), &covering::Catalog::shipped());
    let printed = serde_json::to_string_pretty(&own).unwrap() + "\n";
    assert_eq!(door.get(&format!("/api/jobs/{id}/revisions/1/plan.json")).await.text, printed);
}

#[tokio::test]
async fn sheets_are_drawings_that_run_nothing() {
    let door = Door::new();
    let id = door.begin(&ell(&door).await).await;
    for sheet in ["roof-plan.svg", "setting-out/house.0"] {
        let got = door.get(&format!("/api/jobs/{id}/revisions/1/{sheet}")).await;
        assert_eq!(got.headers["content-type"], "image/svg+xml");
        assert!(got.headers["content-security-policy"].to_str().unwrap().starts_with("default-src 'none'"));
        assert!(got.text.starts_with("<svg "));
    }
    let none = door.get(&format!("/api/jobs/{id}/revisions/1/setting-out/barn.7")).await;
    assert_eq!((none.status, none.json()["says"].as_str()), (StatusCode::NOT_FOUND, Some("there is no such sheet")));
}

#[tokio::test]
async fn legs_become_corners_and_a_side_gets_its_length() {
    let door = Door::new();
    let leg = |toward: f64, length: &str| json!({ "toward_deg": toward, "length": length });
    let legs = json!([leg(0.0, "44 3-1/2"), leg(90.0, "24' 9\""), leg(180.0, "44.0"), leg(270.0, "12")]);
    let walk = json!({ "units": "ft", "from": ["0", "0"], "legs": legs }).to_string();
    let walked = door.tell("POST", "/api/walk", walk).await.json();
    let corners = json!([
        ["0\"", "0\""],
        ["44' 3-1/2\"", "0\""],
        ["44' 3-1/2\"", "24' 9\""],
        ["3-1/2\"", "24' 9\""],
        ["3-1/2\"", "12' 9\""]
    ]);
    assert_eq!(walked["corners"], corners);

    let outline = json!([[0, 0], ["40 ft", 0], ["40 ft", "20 ft"], [0, "20 ft"]]);
    let stretch = json!({ "units": "ft", "outline": outline, "side": 0, "length": "41 6" }).to_string();
    let stretched = door.tell("POST", "/api/stretch", stretch).await.json();
    assert_eq!(stretched, json!([["0\"", "0\""], ["41' 6\"", "0\""], ["41' 6\"", "20' 0\""], ["0\"", "20' 0\""]]));

    let wrong = json!({ "units": "ft", "from": ["0", "0"], "legs": [leg(0.0, "24 1/2")] }).to_string();
    let refused = door.tell("POST", "/api/walk", wrong).await;
    assert_eq!(refused.status, StatusCode::BAD_REQUEST);
    assert!(refused.json()["remedy"].as_str().unwrap().starts_with("Type feet and inches"));
}

#[tokio::test]
async fn a_job_is_priced_by_its_own_rates_or_by_those_that_ship() {
    let door = Door::new();
    let mut job: Value = serde_json::from_str(&ell(&door).await).unwrap();
    let ask =
        async |job: &Value| door.tell("POST", "/api/price", json!({ "text": job.to_string() }).to_string()).await.json();
    let prices = ask(&job).await;
    assert_eq!((&prices["rates"]["invented"], &prices["rates"]["own"]), (&json!(true), &json!(false)));
    let shipped = door.get("/api/rates").await.json();
    let mut own: Value = serde_json::from_str(shipped["text"].as_str().unwrap()).unwrap();
    own["currency"] = json!("EUR");
    own["material"] = json!([{ "line": "field-units", "price": "10.005" }]);
    job["price"] = json!({ "own": own, "option": [{ "name": "in tile", "sheet": "plain-tile" }] });
    let prices = ask(&job).await;
    assert_eq!((&prices["rates"]["currency"], &prices["rates"]["own"]), (&json!("EUR"), &json!(true)));
    assert_eq!(prices["ways"][1]["name"], "in tile");
    let bought = &prices["ways"][0]["quote"]["materials"][0];
    // 10.005 a pack: packs × 10.005, a half cent rounded up.
    let packs: i64 = bought["quantity"].as_str().unwrap().parse().unwrap();
    let cents = (packs * 10_005 + 5).div_euclid(10);
    assert_eq!(bought["amount"], format!("{}.{:02}", cents / 100, cents % 100));
    job["price"] = json!({ "rates": "mine.toml" });
    let refused = ask(&job).await;
    assert!(refused["mistakes"][0]["says"].as_str().unwrap().contains("only the command line reads"));
}

#[tokio::test]
async fn what_the_plan_says_is_said_in_spanish() {
    let door = Door::new();
    let says = json!([
        { "text": "house, south", "sort": "sentence" },
        { "text": "Chalk stains units", "sort": "title", "rule": "chalk-stains-units" },
        { "text": "kept as it stands", "sort": "sentence" },
        { "text": "side_lap", "sort": "key" },
    ]);
    let said = door.tell("POST", "/api/words", json!({ "language": "es", "says": says }).to_string()).await.json();
    assert_eq!((said[0].as_str(), said[2].as_str()), (Some("house, sur"), Some("kept as it stands")));
    assert_ne!(said[1], "Chalk stains units");
    assert_eq!(said[3], "traslape lateral");
}

/// The bytes themselves are held against the command line's in the browser.
#[tokio::test]
async fn a_revision_is_taken_along_in_every_format_and_as_a_book() {
    let door = Door::new();
    let at = format!("/api/jobs/{}/revisions/1", door.begin(&ell(&door).await).await);
    for (asked, name) in [
        ("dxf", "heron-house.dxf"),
        ("geojson", "heron-house.geojson"),
        ("cityjson", "heron-house.city.json"),
        ("json", "heron-house-plan.json"),
        ("csv", "heron-house-order.csv"),
        ("csv?table=price", "heron-house-price.csv"),
    ] {
        let got = door.get(&format!("{at}/export/{asked}")).await;
        assert_eq!(got.status, StatusCode::OK, "{asked}: {}", got.text);
        assert_eq!(got.headers["content-disposition"], format!("attachment; filename=\"{name}\""));
    }
    for (wrong, status) in [
        ("export/pdf", StatusCode::NOT_FOUND),
        ("export/csv?table=all", StatusCode::BAD_REQUEST),
        ("book/everybody", StatusCode::NOT_FOUND),
        ("book/crew?language=xx", StatusCode::BAD_REQUEST),
    ] {
        let got = door.get(&format!("{at}/{wrong}")).await;
        assert_eq!(got.status, status, "{wrong}");
        assert!(got.json()["remedy"].as_str().is_some_and(|remedy| !remedy.is_empty()));
    }
}

#[tokio::test]
async fn half_a_job_is_kept_and_its_mistakes_are_told() {
    let door = Door::new();
    let half = r#"{"format":1,"name":"","covering":{"sheet":"wood-shingle"}}"#;
    door.begin(half).await;
    let planned = door.tell("POST", "/api/plan", json!({ "text": half }).to_string()).await.json();
    assert_eq!(planned["plan"], Value::Null);
    let mut says: Vec<_> = planned["mistakes"].as_array().unwrap().iter().map(|m| m["says"].as_str().unwrap()).collect();
    says.sort_unstable();
    assert_eq!(says, ["the job has no name", "the job has no roof"]);
}

#[tokio::test]
async fn files_are_imported_by_their_ending() {
    let door = Door::new();
    let import = async |name: &str, bytes: &'static [u8]| {
        let request = Request::post(format!("/api/import?name={name}")).header("host", HOST);
        door.send(request.header("content-type", "application/octet-stream").body(Body::from(bytes)).unwrap()).await
    };
    let toml = import("house.toml", include_bytes!("../../../examples/gable.toml")).await.json();
    assert!(toml["text"].as_str().unwrap().starts_with("{\n  \"format\": 1,\n  \"name\": \"Wren cottage\""));
    let dxf = import("house.dxf&layer=OUTLINE", include_bytes!("../../exchange/tests/data/r2000.dxf")).await;
    assert_eq!(dxf.status, StatusCode::OK, "{}", dxf.text);
    for (name, bytes) in [("a.png", &b"x"[..]), ("a.toml", b"a = "), ("a.json", b"{}"), ("noending", b"")] {
        let refused = import(name, bytes).await;
        assert_eq!(refused.status, StatusCode::BAD_REQUEST, "{name}");
        assert!(!refused.json()["remedy"].as_str().unwrap().is_empty());
    }
}

#[tokio::test]
async fn no_other_page_and_no_other_name_gets_in() {
    let door = Door::new();
    let ask = async |headers: &[(&str, &str)], method: &str| {
        let request = headers.iter().fold(Request::builder().method(method).uri("/api/jobs"), |r, (k, v)| r.header(*k, *v));
        door.send(request.body(Body::from("{}")).unwrap()).await.status.as_u16()
    };
    assert_eq!(ask(&[("host", HOST)], "GET").await, 200);
    assert_eq!(ask(&[("host", "localhost:4321"), ("origin", "http://localhost:4321")], "GET").await, 200);
    assert_eq!(ask(&[("host", "roofs.invalid:4321")], "GET").await, 421);
    assert_eq!(ask(&[("host", "127.0.0.1:80")], "GET").await, 421);
    assert_eq!(ask(&[], "GET").await, 421);
    assert_eq!(ask(&[("host", HOST), ("origin", "http://other.invalid")], "GET").await, 403);
    assert_eq!(ask(&[("host", HOST), ("origin", "null")], "GET").await, 403);
    let json = ("content-type", "application/json");
    assert_eq!(ask(&[("host", HOST), json, ("sec-fetch-site", "cross-site")], "POST").await, 403);
    assert_eq!(ask(&[("host", HOST), json, ("origin", "http://127.0.0.1:4321")], "POST").await, 400, "it got in");
    for kind in ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"] {
        assert_eq!(ask(&[("host", HOST), ("content-type", kind)], "POST").await, 415);
    }
}

#[tokio::test]
async fn pages_hold_to_a_strict_policy_and_no_path_leaves_the_folder() {
    let door = Door::new();
    let page = door.get("/job/1/measure").await;
    assert!(page.headers["content-type"].to_str().unwrap().starts_with("text/html"));
    let policy = page.headers["content-security-policy"].to_str().unwrap();
    assert!(policy.starts_with("default-src 'self'") && !policy.contains("unsafe"));
    assert_eq!(page.headers["x-content-type-options"], "nosniff");
    for path in
        ["/../Cargo.toml", "/%2e%2e/%2e%2e/Cargo.toml", "/assets/../../Cargo.toml", "/.git/config", "//etc/passwd.txt"]
    {
        assert_eq!(door.get(path).await.status, StatusCode::NOT_FOUND, "{path}");
    }
    for path in ["/api/nothing", "/api/jobs/x", "/api/jobs/99", "/api/jobs/1/revisions/1", "/api/jobs/99999999999999999999"]
    {
        let got = door.get(path).await;
        assert_eq!(got.status, StatusCode::NOT_FOUND, "{path}");
        assert!(got.json()["says"].as_str().unwrap().starts_with("there is no such"));
    }
    assert_eq!(door.tell("DELETE", "/api/jobs", "{}").await.status, StatusCode::METHOD_NOT_ALLOWED);
}

/// Every address that takes a body, with bodies of every shape: always a refusal in words.
#[tokio::test]
async fn any_bad_body_is_refused_in_words() {
    let door = Door::new();
    door.begin(r#"{"format":1}"#).await;
    let deep = "[".repeat(100_000);
    let bodies = ["", "{", "[]", "null", "7", "{\"text\":7}", "{\"text\":\"\\ud800\"}", "\u{0}", &deep];
    let texts = ["", "[]", "7 8 9", "{\"a\":1,\"a\":2}", "{\"a\":", &deep].map(|text| {
        json!({ "text": text, "what": "", "base": 1, "units": "ft", "outline": [[0, 0]], "side": 9, "length": text, "from": [text, text], "legs": [] })
            .to_string()
    });
    let document: Value = serde_json::from_str(&openapi()).unwrap();
    let mut tried = 0;
    for (path, methods) in document["paths"].as_object().unwrap() {
        for (method, _) in methods.as_object().unwrap().iter().filter(|(_, operation)| operation["requestBody"].is_object())
        {
            let path = path.replace("{id}", "1");
            for body in bodies.into_iter().chain(texts.iter().map(String::as_str)) {
                let got = door.tell(&method.to_uppercase(), &path, body.to_owned()).await;
                let is_planned =
                    got.status == StatusCode::OK && ["/api/plan", "/api/roof", "/api/price"].contains(&path.as_str());
                assert!(got.status.is_client_error() || is_planned, "{method} {path} {}: {}", got.status, got.text);
                assert!(got.json()[if is_planned { "mistakes" } else { "remedy" }] != "", "{}", got.text);
                tried += 1;
            }
        }
    }
    assert!(tried > 100);
    let large = door.tell("POST", "/api/jobs", vec![b' '; 5 << 20]).await;
    assert_eq!(
        (large.status, large.json()["says"].as_str()),
        (StatusCode::PAYLOAD_TOO_LARGE, Some("the request is too large"))
    );
}

#[tokio::test]
async fn every_described_address_answers() {
    let door = Door::new();
    door.begin(&ell(&door).await).await;
    let document: Value = serde_json::from_str(&openapi()).unwrap();
    for (path, methods) in document["paths"].as_object().unwrap() {
        if methods.get("get").is_some() {
            let path = path.replace("{id}", "1").replace("{version}", "1").replace("{plane}", "house.0");
            let path = path.replace("{format}", "xlsx").replace("{part}", "owner");
            let got = door.get(&path).await;
            assert_eq!(got.status, StatusCode::OK, "{path}");
            let kind = got.headers["content-type"].to_str().unwrap();
            assert!(methods["get"]["responses"]["200"]["content"].get(kind).is_some(), "{path} is {kind}");
        }
    }
}

#[test]
fn the_description_is_the_one_checked_in() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../schema/openapi.json");
    if std::env::var_os("HEADLAP_BLESS").is_some() {
        std::fs::write(path, openapi()).expect("it is written");
    }
    assert_eq!(std::fs::read_to_string(path).expect("it is there"), openapi(), "run make bless");
}
