//! Planes and sheets made for tests. All figures of the sheets are invented.
#![allow(dead_code, reason = "each test file uses its part")]
#![allow(clippy::unwrap_used, reason = "tests only")]

use covering::{
    Band, Bond, Bonds, Cap, Covering, Edges, GradedLength, Lap, Material, MixedWidth, NailLine, Nails, Pack, Starter,
    Underlayment, Unit, Wide,
};
use roof::{Edge, EdgeKind, Frame, Place, Plane, Ring};
use units::{Length, Mass, Pitch};

pub(crate) fn inches(value: f64) -> Length {
    Length::inches(value)
}

pub(crate) fn pitch(rise: f64) -> Pitch {
    Pitch::per_12(rise).unwrap()
}

/// A plane at 8/12 with these rings in its own frame.
pub(crate) fn plane(rings: &[(&[Place], &[EdgeKind])]) -> Plane {
    let frame = Frame { origin: [0.0; 3], right: [1.0, 0.0], pitch: pitch(8.0) };
    let ring = |(places, kinds): &(&[Place], &[EdgeKind])| Ring {
        corners: places.iter().map(|&at| frame.point(at)).collect(),
        edges: kinds.iter().map(|&kind| Edge { kind, meets: None }).collect(),
    };
    Plane {
        id: "test.0".into(),
        name: "test, south".into(),
        block: "test".into(),
        pitch: frame.pitch,
        facing_deg: 180.0,
        known_by: roof::KnownBy::Outline,
        frame,
        rings: rings.iter().map(ring).collect(),
    }
}

/// A rectangle with an eave below, rakes at the sides and a ridge above.
pub(crate) fn gable(width: f64, height: f64) -> Plane {
    use EdgeKind::{Eave, Rake, Ridge};
    plane(&[(&[[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]], &[Eave, Rake, Ridge, Rake])])
}

/// A slate without gap, projections or caps, at one exposure at every pitch.
pub(crate) fn plain_slate(length: f64, width: f64, headlap: f64) -> Covering {
    let greatest = (length - headlap) / 2.0;
    Covering {
        id: "test".into(),
        name: "test".into(),
        material: Material::NaturalSlate,
        unit: Unit {
            length: inches(length),
            width: inches(width),
            thickness: inches(0.25),
            tapered: false,
            weight: Mass::pounds(3.0),
        },
        wide: None,
        lap: Lap::Double,
        bands: vec![Band {
            from: pitch(4.0),
            to: None,
            least_exposure: inches(1.0),
            greatest_exposure: inches(greatest),
            headlap: inches(headlap),
        }],
        marks: vec![],
        gap: inches(0.0),
        joint_offset: inches(width / 4.0),
        least_piece: inches(width / 4.0),
        bonds: Bonds::default(),
        edges: Edges {
            eave_projection: inches(0.0),
            rake_projection: inches(0.0),
            off_walls: inches(0.0),
            valley_clear: inches(0.0),
            valley_growth: inches(0.0),
            valley_flange: inches(0.0),
            valley_nails_off: inches(0.0),
            high_edge_metal: inches(0.0),
            apron_leg: inches(0.0),
            ridge_slot: inches(0.0),
            made_at_rakes: false,
        },
        starter: Starter {
            height: None,
            width: inches(width),
            weight: Mass::pounds(2.0),
            pack: Pack { count: 30 },
            nails: 2,
            joint_offset: inches(width / 5.0),
            layers: 1,
        },
        cap: Cap {
            length: inches(12.0),
            exposure: inches(7.0),
            cover: inches(0.0),
            hip_cover: inches(0.0),
            nails: 2,
            weight: Mass::pounds(1.0),
            pack: Pack { count: 20 },
        },
        nails: Nails { each: 2, penetration: inches(0.75), through_units: 2, box_count: 1000 },
        underlayment: Underlayment {
            name: "felt".into(),
            width: inches(36.0),
            length: inches(864.0),
            top_lap: inches(2.0),
            end_lap: inches(4.0),
            double_below: Some(pitch(4.0)),
            weight: Mass::pounds(30.0),
        },
        pack: Pack { count: 20 },
        conditions: covering::Conditions::default(),
        cutting: None,
        ridge_metal: None,
        sources: vec![],
        invented: true,
    }
}

/// A moulded unit with everything a sheet can ask: gap, projections, caps, walls, open valleys.
pub(crate) fn moulded() -> Covering {
    let mut sheet = plain_slate(18.0, 12.0, 4.0);
    sheet.material = Material::CompositeSlate;
    sheet.gap = inches(0.25);
    sheet.bands[0].least_exposure = inches(5.0);
    sheet.joint_offset = inches(3.0);
    sheet.least_piece = inches(4.0);
    sheet.starter.joint_offset = inches(2.5);
    sheet.edges = Edges {
        eave_projection: inches(1.25),
        rake_projection: inches(0.75),
        off_walls: inches(0.5),
        valley_clear: inches(5.0),
        valley_growth: inches(1.5),
        valley_flange: inches(4.0),
        valley_nails_off: inches(0.5),
        high_edge_metal: inches(2.5),
        apron_leg: inches(4.5),
        ridge_slot: inches(1.5),
        made_at_rakes: true,
    };
    sheet.cap.cover = inches(5.5);
    sheet.cap.hip_cover = inches(5.0);
    sheet.wide = Some(Wide { width: inches(18.0), weight: Mass::pounds(4.0), pack: Pack { count: 12 } });
    sheet.conditions.nail_line = Some(NailLine { side: inches(1.0), up: inches(9.0), off_joint: None });
    sheet
}

/// A sawn shingle at triple lap, with starters of its own length.
pub(crate) fn shingle() -> Covering {
    let mut sheet = moulded();
    sheet.material = Material::WoodShingle;
    sheet.lap = Lap::Triple;
    sheet.unit.length = inches(17.0);
    sheet.unit.width = inches(8.0);
    sheet.wide = Some(Wide { width: inches(11.5), weight: Mass::pounds(1.0), pack: Pack { count: 90 } });
    sheet.conditions.nail_line = Some(NailLine { side: inches(0.75), up: inches(6.0), off_joint: None });
    sheet.bands[0].least_exposure = inches(4.0);
    sheet.bands[0].greatest_exposure = inches(5.25);
    sheet.bands[0].headlap = inches(1.25);
    sheet.joint_offset = inches(1.75);
    sheet.least_piece = inches(2.5);
    sheet.starter.height = Some(inches(17.0));
    sheet.starter.layers = 2;
    sheet.starter.width = inches(8.0);
    sheet.starter.joint_offset = inches(1.75);
    sheet
}

/// Slates of random widths, 6 to 14 in, with everything else that a sheet can ask.
pub(crate) fn random_slate() -> Covering {
    let mut sheet = moulded();
    sheet.material = Material::NaturalSlate;
    sheet.gap = inches(0.0625);
    sheet.bonds = mix(&[(6.0, 10.0), (8.0, 25.0), (10.0, 30.0), (12.0, 25.0), (14.0, 10.0)]);
    sheet.wide = None;
    sheet
}

/// Shingles of random widths at triple lap: joints 1-1/2 in apart in three courses.
pub(crate) fn random_shingle() -> Covering {
    let mut sheet = shingle();
    sheet.joint_offset = inches(1.5);
    sheet.starter.joint_offset = inches(1.5);
    sheet.gap = inches(0.1875);
    sheet.bonds = mix(&[(4.0, 15.0), (5.5, 20.0), (7.0, 25.0), (9.0, 25.0), (10.5, 15.0)]);
    sheet
}

/// The sheet in graduated lengths, inches, each with its percentage of the slope; the first is its unit's own.
pub(crate) fn graduated(sheet: Covering, lengths: &[(f64, f64)]) -> Covering {
    let graded = |&(length, percent): &(f64, f64)| GradedLength {
        length: inches(length),
        thickness: inches(length / 80.0),
        share: percent / 100.0,
    };
    let bonds = Bonds { lengths: lengths.iter().map(graded).collect(), ..sheet.bonds.clone() };
    Covering { bonds, ..sheet }
}

/// Random widths, inches, each with its percentage.
pub(crate) fn mix(widths: &[(f64, f64)]) -> Bonds {
    let mixed = |&(width, percent): &(f64, f64)| MixedWidth { width: inches(width), share: percent / 100.0 };
    Bonds { allows: vec![Bond::Random], widths: widths.iter().map(mixed).collect(), share_within: 0.05, ..Bonds::default() }
}
