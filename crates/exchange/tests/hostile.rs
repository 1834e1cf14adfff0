//! Broken input is an import or a reason, never a panic, and never takes long; what was read plans.
//! `make fuzz` runs many more cases.

mod common;

use common::{json, told};
use cpu_time::ThreadTime;
use exchange::{ImportFormat, Imported, LARGEST, Options, Refused, job_file, read};
use proptest::prelude::*;
use std::time::Duration;
use units::LengthUnit;

const SEEDS: [(&[u8], ImportFormat); 5] = [
    (include_bytes!("data/r12.dxf"), ImportFormat::Dxf),
    (include_bytes!("data/r2000.dxf"), ImportFormat::Dxf),
    (GEOJSON, ImportFormat::Json),
    (CITYJSON, ImportFormat::Json),
    (FEATURES, ImportFormat::Json),
];

const GEOJSON: &[u8] = br#"{"type":"FeatureCollection","features":[{"type":"Feature","id":1,"properties":{"name":"a"},
"geometry":{"type":"MultiPolygon","coordinates":[[[[10,50],[10.0002,50],[10.0002,50.0001],[10,50.0001],[10,50]],
[[10.00005,50.00002],[10.00005,50.00004],[10.0001,50.00004],[10.00005,50.00002]]]]}}]}"#;

const CITYJSON: &[u8] = br#"{"type":"CityJSON","version":"1.1","transform":{"scale":[0.01,0.01,0.01],"translate":[0,0,0]},
"metadata":{"referenceSystem":"https://www.opengis.net/def/crs/EPSG/0/28992"},"CityObjects":{"a":{"type":"Building",
"geometry":[{"type":"Solid","lod":"2","boundaries":[[[[0,1,2,3]],[[0,1,5,4]],[[4,5,2,3]]]],"semantics":{"surfaces":[
{"type":"GroundSurface"},{"type":"RoofSurface"}],"values":[[0,1,1]]}}]}},"vertices":[[0,0,0],[1200,0,0],[1200,900,0],
[0,900,0],[0,450,300],[1200,450,300]]}"#;

const FEATURES: &[u8] =
    br#"{"type":"CityJSON","version":"2.0","transform":{"scale":[1,1,1],"translate":[0,0,0]},"CityObjects":{},
"vertices":[],"metadata":{"referenceSystem":"EPSG:32633"}}
{"type":"CityJSONFeature","id":"b","CityObjects":{"b":{"type":"Building","children":["c"]},"c":{"type":"BuildingPart",
"parents":["b"],"geometry":[{"type":"MultiSurface","lod":"2","boundaries":[[[0,1,2,3]]],"semantics":{"surfaces":[
{"type":"RoofSurface"}],"values":[0]}}]}},"vertices":[[0,0,0],[12,0,0],[12,9,4],[0,9,4]]}"#;

/// A change of a file.
#[derive(Debug, Clone)]
enum Change {
    Set(prop::sample::Index, u8),
    Cut(prop::sample::Index, usize),
    End(prop::sample::Index),
    Copy(prop::sample::Index, prop::sample::Index, usize),
    Put(prop::sample::Index, &'static str),
    /// Two numbers change places.
    Swap(prop::sample::Index, prop::sample::Index),
}

fn change() -> impl Strategy<Value = Change> {
    use prop::sample::Index;
    let words =
        ["1e308", "-1e400", "nan", "inf", "null", "[]", "{}", "[[[[", "\"", "-1", "18446744073709551616", "\n0\n", "1e-320"];
    prop_oneof![
        (any::<Index>(), any::<u8>()).prop_map(|(at, byte)| Change::Set(at, byte)),
        (any::<Index>(), 1..40usize).prop_map(|(at, count)| Change::Cut(at, count)),
        any::<Index>().prop_map(Change::End),
        (any::<Index>(), any::<Index>(), 1..200usize).prop_map(|(from, to, count)| Change::Copy(from, to, count)),
        (any::<Index>(), prop::sample::select(words.to_vec())).prop_map(|(at, word)| Change::Put(at, word)),
        (any::<Index>(), any::<Index>()).prop_map(|(a, b)| Change::Swap(a, b)),
    ]
}

fn apply(bytes: &mut Vec<u8>, change: &Change) {
    let size = bytes.len();
    if size == 0 {
        return;
    }
    match change {
        Change::Set(at, byte) => bytes[at.index(size)] = *byte,
        Change::Cut(at, count) => drop(bytes.drain(at.index(size)..(at.index(size) + count).min(size))),
        Change::End(at) => bytes.truncate(size / 2 + at.index(size) / 2),
        Change::Copy(from, to, count) => {
            let part = bytes[from.index(size)..(from.index(size) + count).min(size)].to_vec();
            bytes.splice(to.index(size)..to.index(size), part);
        }
        Change::Put(at, word) => {
            // In the place of a number, where it hurts.
            let at = at.index(size);
            let end = bytes[at..].iter().position(|byte| b",]}\n".contains(byte)).map_or(size, |end| at + end);
            bytes.splice(at..end, word.bytes());
        }
        Change::Swap(a, b) => swap(bytes, a, b),
    }
}

fn swap(bytes: &mut Vec<u8>, a: &prop::sample::Index, b: &prop::sample::Index) {
    let numeric = |byte: &u8| byte.is_ascii_digit() || b".-+e".contains(byte);
    let mut runs: Vec<Vec<u8>> = bytes.chunk_by(|a, b| numeric(a) == numeric(b)).map(<[u8]>::to_vec).collect();
    let numbers: Vec<usize> = (0..runs.len()).filter(|&run| runs[run].iter().all(numeric)).collect();
    if !numbers.is_empty() {
        runs.swap(numbers[a.index(numbers.len())], numbers[b.index(numbers.len())]);
    }
    *bytes = runs.concat();
}

/// Of the processor, not of the clock, which runs on while others are served. Not a measure of speed, which depends on the
/// machine: what takes this long would not have ended for hours.
const PATIENCE: Duration = Duration::from_secs(10);

fn reads_in_time(bytes: &[u8], format: ImportFormat, options: &Options) {
    let began = ThreadTime::now();
    is_sound(&read(bytes, format, options));
    assert!(began.elapsed() < PATIENCE, "took {:?}: {}", began.elapsed(), String::from_utf8_lossy(bytes));
}

fn options() -> impl Strategy<Value = Options> {
    let units = prop::option::of(prop::sample::select(vec![LengthUnit::Ft, LengthUnit::M, LengthUnit::Mm]));
    let layer = prop::option::weighted(0.3, prop::sample::select(vec!["OUTLINE", "TRIANGLES", "RING", "a", "b"]));
    (units, layer).prop_map(|(units, layer)| Options { units, layer: layer.map(str::to_owned) })
}

/// Whatever was read is what an import promises.
fn is_sound(result: &Result<Imported, Refused>) {
    match result {
        Err(refused) => assert!(!refused.says.is_empty() && !refused.remedy.is_empty(), "{refused:?}"),
        Ok(found) => {
            assert!(!found.outlines.is_empty() || !found.planes.is_empty());
            let numbers = found.outlines.iter().flat_map(|outline| outline.corners.iter().flatten());
            let heights = found.planes.iter().flat_map(|plane| plane.corners.iter().flatten());
            assert!(numbers.chain(heights).all(|at| (0.0..=120_001.0).contains(at)));
            assert!(found.outlines.iter().all(|outline| geom::polygon::area(&outline.corners) > 0.0));
            let text = job_file(found, "x");
            assert!(text.len() < reader::LARGEST);
            let table = text.parse::<toml::Table>().expect("good TOML");
            if found.planes.is_empty() {
                assert!(table.contains_key("block"));
                let (job, mistakes) = plan::read_job(&text, reader::Format::Toml);
                assert!(job.is_some(), "{mistakes:?}");
                job.iter().for_each(|job| drop(plan::plan(job, &covering::Catalog::shipped())));
            }
        }
    }
}

#[test]
fn the_seeds_are_good() {
    for (bytes, format) in SEEDS {
        let layer = (format == ImportFormat::Dxf).then(|| "TRIANGLES".to_owned());
        let units = bytes.starts_with(SEEDS[0].0).then_some(LengthUnit::Ft);
        let found = read(bytes, format, &Options { units, layer });
        assert!(found.is_ok(), "{found:?}");
        is_sound(&found);
    }
}

proptest! {
    // A case that takes long would be made smaller for hours.
    #![proptest_config(ProptestConfig { max_shrink_time: 60_000, ..ProptestConfig::default() })]

    #[test]
    fn changed_files(
        seed in 0..SEEDS.len(), changes in prop::collection::vec(change(), 1..6), options in options(),
    ) {
        let (bytes, format) = SEEDS[seed];
        let mut bytes = bytes.to_vec();
        changes.iter().for_each(|change| apply(&mut bytes, change));
        reads_in_time(&bytes, format, &options);
    }

    #[test]
    fn noise(bytes in prop::collection::vec(any::<u8>(), 0..300), options in options()) {
        reads_in_time(&bytes, ImportFormat::Json, &options);
        reads_in_time(&bytes, ImportFormat::Dxf, &options);
    }
}

#[test]
fn huge_files_are_refused_at_once() {
    let refused = read(&vec![b' '; LARGEST + 1], ImportFormat::Json, &Options::default()).unwrap_err();
    assert!(refused.says.contains("32 MB"), "{refused}");
}

/// A ring of very many corners, and a town of very many houses.
#[test]
fn towns_are_refused() {
    let ring: Vec<String> = (0..50_000).map(|i| format!("[{},{}]", i % 250, i / 250)).collect();
    let file = format!("{{\"type\":\"Polygon\",\"coordinates\":[[{}]]}}", ring.join(","));
    assert!(json(&file, &told(LengthUnit::Ft)).unwrap_err().says.contains("no house"));
    let square = |i: usize| {
        let (x, y) = (i % 50 * 30, i / 50 * 30);
        format!("[[[{x},{y}],[{},{y}],[{x},{}]]]", x + 20, y + 20)
    };
    let squares: Vec<String> = (0..3000).map(square).collect();
    let file = format!("{{\"type\":\"MultiPolygon\",\"coordinates\":[{}]}}", squares.join(","));
    assert!(json(&file, &told(LengthUnit::Ft)).unwrap_err().remedy.contains("--layer"));
}
