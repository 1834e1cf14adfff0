//! The vectors that the screens' own reading of lengths is tested on too, so that the two cannot part. Worked by hand from the
//! definition of the inch, 25.4 mm (ISO 80000-3, from memory, not read).

use units::Length;

#[test]
fn texts_read_as_they_are_meant() {
    let vectors: Vec<(String, Option<f64>)> = serde_json::from_str(include_str!("data/lengths.json")).expect("a list");
    for (text, inches) in vectors {
        let read = text.parse::<Length>().ok().map(Length::to_inches);
        match (read, inches) {
            (Some(read), Some(inches)) => assert!((read - inches).abs() < 1e-12, "{text}: {read}"),
            (read, inches) => assert_eq!(read, inches, "{text}"),
        }
    }
}
