//! How the pages look: a small grey picture of every kind of page, as it was looked at.
//!
//! The pages are drawn by the typesetter's own hand, so no program is needed, and the pixels are the same on every machine.

use std::env;
use std::fs;
use std::path::{Path, PathBuf};

use png::{BitDepth, ColorType, Decoder, Encoder};
use typst::utils::Scalar;
use typst_layout::Page;
use typst_render::{RenderOptions, render};

use super::examples;
use crate::{Binding, Language, Measures, Paper, Part, press, tail};

/// Pixels to an inch.
const PER_INCH: f64 = 40.0;
/// So many of 255 greys are the rounding of another processor; more are another picture.
const ROUNDING: u8 = 3;

/// A book whose pages are kept.
struct Kept {
    name: &'static str,
    example: &'static str,
    binding: Binding,
    /// Of every sheet only the first page.
    first_pages: bool,
}

const fn kept(name: &'static str, example: &'static str, language: Language, part: Part, first_pages: bool) -> Kept {
    let (measures, paper) = match language {
        Language::English => (Measures::Customary, Paper::Letter),
        Language::Spanish => (Measures::Metric, Paper::A4),
    };
    Kept { name, example, binding: Binding { language, measures, paper, part, date: Some([2026, 5, 31]) }, first_pages }
}

/// The smallest example and the largest, and the one with openings; each language with its paper and its measures.
const BOOKS: [Kept; 5] = [
    kept("smallest-en", "gable", Language::English, Part::Whole, false),
    kept("poles-en", "gable", Language::English, Part::Poles, true),
    kept("poles-es", "taped", Language::Spanish, Part::Poles, true),
    kept("openings-en", "chimney", Language::English, Part::Crew, true),
    kept("largest-es", "gambrel", Language::Spanish, Part::Whole, true),
];

/// A grey picture.
#[derive(PartialEq)]
struct Picture {
    size: [u32; 2],
    greys: Vec<u8>,
}

/// `HEADLAP_BLESS=1 cargo test -p book` takes them anew; look at them before you keep them.
#[test]
fn pages_look_as_they_were_looked_at() {
    let mut differ: Vec<String> = Vec::new();
    for book in &BOOKS {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/golden/pages").join(book.name);
        let pages = pictures(book);
        if env::var_os("HEADLAP_BLESS").is_some() {
            let _ = fs::remove_dir_all(&folder);
            fs::create_dir_all(&folder).unwrap();
            pages.iter().for_each(|(number, picture)| picture.write(&folder.join(file(*number))));
        }
        let listed: Vec<String> = pages.iter().map(|(number, _)| file(*number)).collect();
        if listed != files(&folder) {
            differ.push(format!("{}: other pages are kept than there are, {listed:?}", book.name));
        }
        differ.extend(pages.iter().filter_map(|(number, picture)| compare(&folder, book.name, *number, picture)));
    }
    assert!(differ.is_empty(), "bless them if the new pages look right:\n{}", differ.join("\n"));
}

/// The test can fail: a line of lettering moved by a point is another picture, and it is told where.
#[test]
fn a_line_out_of_place_is_seen() {
    let white = |greys: &[u8]| Picture { size: [4, 2], greys: greys.to_vec() };
    let was = white(&[255; 8]);
    let is = white(&[255, 255, 255, 255, 255, 90, 90, 255]);
    assert_eq!(was.unlike(&is), Some("2 pixels differ, within 1..=2 across and 1..=1 down of 4 × 2".to_owned()));
    assert_eq!(was.unlike(&white(&[253; 8])), None);
    let larger = Picture { size: [2, 4], greys: vec![255; 8] };
    assert_eq!(was.unlike(&larger), Some("it is 2 × 4, not 4 × 2".to_owned()));
}

fn file(number: usize) -> String {
    format!("{number:02}.png")
}

fn files(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut names: Vec<String> = entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// With their numbers, counted from 1.
fn pictures(book: &Kept) -> Vec<(usize, Picture)> {
    let (_, plan) = examples().into_iter().find(|(name, _)| name == book.example).unwrap();
    let content = crate::content(&plan, &book.binding).unwrap();
    let set = press::set(&content).unwrap();
    let begins = tail::first_pages(&set);
    let is_kept = |number: &usize| !book.first_pages || begins.contains(number);
    (1..).zip(set.pages()).filter(|(number, _)| is_kept(number)).map(|(number, page)| (number, taken(page))).collect()
}

fn taken(page: &Page) -> Picture {
    let options = RenderOptions { pixel_per_pt: Scalar::new(PER_INCH / 72.0), ..RenderOptions::default() };
    let pixels = render(page, &options);
    // The book has no colours: one of the three tells the grey.
    Picture { size: [pixels.width(), pixels.height()], greys: pixels.data().chunks_exact(4).map(|pixel| pixel[0]).collect() }
}

/// What is said of a page that looks otherwise; its new picture is written beside what was built.
fn compare(folder: &Path, book: &str, number: usize, picture: &Picture) -> Option<String> {
    let Some(kept) = Picture::read(&folder.join(file(number))) else {
        return Some(format!("{book}, page {number}: no picture is kept"));
    };
    let says = kept.unlike(picture)?;
    let new = built().join(format!("{book}-{}", file(number)));
    picture.write(&new);
    Some(format!("{book}, page {number}: {says}; the new picture is {}", new.display()))
}

/// Where the tests themselves were built.
fn built() -> PathBuf {
    let folder = env::current_exe().unwrap().parent().unwrap().join("../pages");
    fs::create_dir_all(&folder).unwrap();
    folder.canonicalize().unwrap()
}

impl Picture {
    fn read(path: &Path) -> Option<Self> {
        let mut reader = Decoder::new(std::io::BufReader::new(fs::File::open(path).ok()?)).read_info().unwrap();
        let mut greys = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut greys).unwrap();
        Some(Self { size: [info.width, info.height], greys })
    }

    fn write(&self, path: &Path) {
        let mut encoder = Encoder::new(fs::File::create(path).unwrap(), self.size[0], self.size[1]);
        encoder.set_color(ColorType::Grayscale);
        encoder.set_depth(BitDepth::Eight);
        encoder.set_compression(png::Compression::High);
        encoder.write_header().unwrap().write_image_data(&self.greys).unwrap();
    }

    /// In what another picture differs.
    fn unlike(&self, other: &Self) -> Option<String> {
        let [width, height] = self.size;
        if self.size != other.size {
            return Some(format!("it is {} × {}, not {width} × {height}", other.size[0], other.size[1]));
        }
        let pairs = self.greys.iter().zip(&other.greys).enumerate();
        let off: Vec<usize> = pairs.filter(|(_, (a, b))| a.abs_diff(**b) > ROUNDING).map(|(at, _)| at).collect();
        let across = |at: &usize| at % width as usize;
        let down = |at: &usize| at / width as usize;
        let [left, right] = [off.iter().map(across).min()?, off.iter().map(across).max()?];
        let [top, base] = [off.iter().map(down).min()?, off.iter().map(down).max()?];
        Some(format!(
            "{} pixels differ, within {left}..={right} across and {top}..={base} down of {width} × {height}",
            off.len()
        ))
    }
}
