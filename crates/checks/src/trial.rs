//! A sound roof to spoil: one plane of twenty courses in half bond, by a sheet made for the tests.

use covering::{Band, Cap, Covering, Edges, Lap, Material, Nails, Pack, Parted, Starter, Underlayment, Unit, Wood};
use details::{
    Along, Attic, Details, DryInChoices, FastenerGrid, FlashingChoices, Lies, Metal as Metals, MetalItem, MetalKind,
    MetalPiece, MetalRun, NailHolds, NailNeed, Passed, Patch, Piece, RidgeRun, RidgeVent, Roll, Rolls, Sealant, SheetMetal,
    SheetStock, SoffitVent, Strip, Vents,
};
use layout::{Course, Hanging, LaidPlane, Layout, Run, Starters, UnitKind};
use roof::{Block, Frame, OutlineAt, Plane, Roof, Side, SideKind};
use units::{Area, Length, Mass, Pitch};

use crate::{Checked, Deck, DeckKind, Drive, Edition, Facts, Fastener, FastenerKind, Laying, Metal, Outcome, Site, check};

pub(crate) struct Trial {
    pub(crate) roof: Roof,
    pub(crate) layout: Layout,
    pub(crate) covering: Covering,
    pub(crate) covered: bool,
    pub(crate) details: Details,
    pub(crate) dry_in: DryInChoices,
    pub(crate) flashing: FlashingChoices,
    pub(crate) overhang_of: Vec<Option<Length>>,
    pub(crate) attic: Option<Attic>,
    pub(crate) deck: Deck,
    pub(crate) fastener: Fastener,
    pub(crate) site: Site,
    pub(crate) laying: Laying,
}

impl Trial {
    pub(crate) const COURSES: usize = 20;
    pub(crate) const EXPOSURE: f64 = 7.0;

    pub(crate) fn sound() -> Self {
        let covering = covering();
        let layout = Layout { planes: vec![laid(&covering, Self::EXPOSURE)], ..Layout::default() };
        let roof = Roof { planes: vec![plane(8.0)], ..Roof::default() };
        let (deck, fastener, site, laying) = (deck(), fastener(), site(), Laying::default());
        let details = Details { nails: vec![nails(&covering)], ..Details::default() };
        let (dry_in, flashing) = (dry_in(), flashing());
        let (overhang_of, attic, covered) = (Vec::new(), None, true);
        Self { roof, layout, covering, covered, details, dry_in, flashing, overhang_of, attic, deck, fastener, site, laying }
    }

    /// The same roof in another material, sound by the code's figures for it.
    pub(crate) fn of(material: Material) -> Self {
        let mut trial = Self::sound();
        let inches = Length::inches;
        let (length, width, gap, lap, exposure) = match material {
            Material::NaturalSlate => (20.0, 12.0, 0.0625, Lap::Double, 8.0),
            Material::WoodShingle => (18.0, 6.0, 0.25, Lap::Triple, 5.0),
            Material::WoodShake => (24.0, 8.0, 0.5, Lap::Shake, 10.0),
            Material::PlainTile => (15.0, 12.0, 0.0625, Lap::Double, 6.0),
            Material::CompositeSlate => (18.0, 12.0, 0.25, Lap::Double, Self::EXPOSURE),
        };
        let wood = |parted| Some(Wood { grade: 1, parted, treated: false, source: "A label.".into() });
        trial.covering.conditions.wood = match material {
            Material::WoodShingle => wood(Parted::Sawn),
            Material::WoodShake => wood(Parted::TaperSawn),
            _ => None,
        };
        let covering = &mut trial.covering;
        (covering.material, covering.lap, covering.gap) = (material, lap, inches(gap));
        (covering.unit.length, covering.unit.width) = (inches(length), inches(width));
        covering.unit.tapered = trial_is_wood(material);
        covering.starter.width = inches(width);
        covering.joint_offset = inches(1.5);
        covering.starter.joint_offset = inches(1.5);
        for band in &mut covering.bands {
            let headlap = covering.unit.length.to_inches() - exposure * f64::from(lap.courses());
            (band.least_exposure, band.greatest_exposure, band.headlap) = (inches(2.0), inches(exposure), inches(headlap));
        }
        trial.set_exposure(exposure);
        let [length, shank] = [2.0, 0.125].map(|size| Some(inches(size)));
        trial.fastener = Fastener { metal: Some(Metal::StainlessSteel), length, shank, ..trial.fastener };
        trial
    }

    /// A roof of its own, without any unit on it.
    pub(crate) fn on(blocks: &[Block]) -> Self {
        let roof = roof::build(blocks, 0.0).roof;
        Self { roof, layout: Layout::default(), ..Self::sound() }
    }

    /// The sound roof over an attic of 1,500 sq ft, whose ridges and eaves give so many square inches by what the job tells: at
    /// 300 the vents are said to be balanced, and a vapour retarder to be there.
    pub(crate) fn vented(share: u32, upper: f64, lower: f64) -> Self {
        let needed = 1500.0 * 144.0 / f64::from(share);
        let [floor, nfa] = [1500.0 * 144.0, 18.0].map(Area::square_inches);
        let is_lesser = share == 300;
        let vents = Vents {
            floor,
            share,
            why: if is_lesser { "vents are balanced and a vapour retarder is there" } else { "none is told" }.into(),
            needed: Area::square_inches(needed),
            upper: [0.4, 0.5].map(|of| Area::square_inches(of * needed)),
            lower: Area::square_inches(lower),
            ridges: vec![RidgeRun { line: 0, from: 12.0, to: 12.0 + upper / 18.0 * 12.0, sections: 9 }],
            section: Some(Length::feet(4.0)),
            ridge_gives: Area::square_inches(upper),
            slot: None,
            soffit: None,
            eaves: Length::feet(1000.0),
            notes: Vec::new(),
        };
        let ridge_vent = RidgeVent { nfa_per_foot: nfa, section: Length::feet(4.0), end: Length::feet(1.0), framing: None };
        let attic = Attic {
            vapor_retarder: Some(is_lesser),
            balanced: Some(is_lesser),
            ridge_vent: Some(ridge_vent),
            soffit_vent: Some(SoffitVent { nfa_per_foot: nfa }),
            ..Attic::default()
        };
        let sound = Self::sound();
        let details = Details { vents: Some(vents), ..sound.details };
        Self { details, attic: Some(attic), ..sound }
    }

    /// One run of metal on the first plane: pieces from foot to head, of one girth.
    pub(crate) fn metal(&mut self, kind: MetalKind, pieces: &[[[f64; 2]; 2]], girth: f64) {
        let [thickness, length, width] = [0.0216, 120.0, 36.0].map(Length::inches);
        let stock = SheetStock { metal: SheetMetal::Copper, thickness, length, width, weight: Mass::pounds(1.0) };
        let piece = |&ends: &[[f64; 2]; 2]| {
            let length = Length::inches(libm::hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]));
            MetalPiece { course: None, ends, girth: Length::inches(girth), length }
        };
        let along = Along { plane: 0, line: None, opening: None };
        let pieces = pieces.iter().map(piece).collect();
        let [sealed_joints, face_nails, nails] = [0; 3];
        let runs = vec![MetalRun {
            along,
            pieces,
            roof_leg: None,
            sealed_joints,
            sealant: Length::ZERO,
            ribbed: false,
            face_nails,
            nails,
        }];
        let items = vec![MetalItem { kind, runs }];
        self.details.metal = Some(Metals { stock, sheets: 1, bound: 1, items, pipes: Vec::new(), sealant: sealant() });
    }

    /// Strips of one kind under the units, from a roll of this width.
    pub(crate) fn roll(&mut self, kind: details::Kind, width: f64, strips: Vec<Strip>) {
        let roll = Roll { width: Length::inches(width), ..plain_roll() };
        self.details.dry_in.rolls.push(Rolls { kind, sheet: String::new(), roll, strips, count: 1, bound: 1 });
    }

    /// Lays one of its planes, as if it were as wide and as high as the sound roof's.
    pub(crate) fn lay(&mut self, plane: usize, exposure: f64) {
        self.layout.planes.push(LaidPlane { plane, ..laid(&self.covering, exposure) });
    }

    pub(crate) fn set_pitch(&mut self, rise: f64) {
        self.roof.planes = vec![plane(rise)];
    }

    /// Lays the plane again.
    pub(crate) fn set_exposure(&mut self, exposure: f64) {
        self.layout.planes = vec![laid(&self.covering, exposure)];
    }

    /// Moves a course, those above it and the top line up the slope.
    pub(crate) fn raise_from(&mut self, course: usize, by: f64) {
        let laid = &mut self.layout.planes[0];
        laid.courses[course..].iter_mut().for_each(|course| course.butt += by);
        laid.top += by;
    }

    pub(crate) fn coverings(&self) -> Vec<Option<&Covering>> {
        vec![self.covered.then_some(&self.covering); self.roof.planes.len()]
    }

    pub(crate) fn facts<'a>(&'a self, covering_of: &'a [Option<&'a Covering>]) -> Facts<'a> {
        let Self { roof, layout, details, dry_in, flashing, overhang_of, attic, deck, fastener, site, laying, .. } = self;
        let attic = *attic;
        Facts { roof, layout, covering_of, details, dry_in, flashing, overhang_of, attic, deck, fastener, site, laying }
    }

    pub(crate) fn check(&self) -> Vec<Checked> {
        check(&self.facts(&self.coverings()))
    }

    pub(crate) fn one(&self, rule: &str) -> Checked {
        self.check().into_iter().find(|checked| checked.rule.name == rule).unwrap()
    }

    pub(crate) fn outcome(&self, rule: &str) -> Outcome {
        self.one(rule).outcome
    }

    pub(crate) fn says(&self, rule: &str) -> String {
        self.one(rule).says
    }

    /// Rules that fail or want a look here, and say something else of a sound roof.
    pub(crate) fn adds(&self, sound: &Self) -> Vec<&'static str> {
        let before = sound.check();
        let found = self.check().into_iter().filter(|checked| matches!(checked.outcome, Outcome::Fail | Outcome::Attention));
        found
            .filter(|checked| {
                let same = before.iter().find(|other| other.rule == checked.rule);
                same.is_none_or(|other| other.outcome != checked.outcome)
            })
            .map(|checked| checked.rule.name)
            .collect()
    }
}

const fn trial_is_wood(material: Material) -> bool {
    matches!(material, Material::WoodShingle | Material::WoodShake)
}

/// A house of four sides, feet; an eave for each pitch, a gable where there is none.
pub(crate) fn house(
    name: &str,
    [left, low, right, high]: [f64; 4],
    pitches: [Option<f64>; 4],
    eave_height_ft: f64,
) -> Block {
    let kind = |rise: Option<f64>| rise.map_or(SideKind::Gable, |rise| SideKind::Eave(Pitch::per_12(rise).unwrap()));
    Block {
        name: name.into(),
        outline: [[left, low], [right, low], [right, high], [left, high]].map(|[x, y]| [x * 12.0, y * 12.0]).to_vec(),
        outline_at: OutlineAt::DripLine,
        sides: pitches.map(|rise| Side::new(kind(rise))).to_vec(),
        holes: Vec::new(),
        eave_height: eave_height_ft * 12.0,
    }
}

/// A strip on a plane, of pieces that begin at the first of each pair and are as long as the second.
pub(crate) fn strip(lies: Lies, plane: usize, u: [f64; 2], v: [f64; 2], pieces: &[[f64; 2]]) -> Strip {
    let corners = [[u[0], v[0]], [u[1], v[0]], [u[1], v[1]], [u[0], v[1]]];
    let pieces = pieces.iter().map(|&[from, length]| Piece { roll: 0, from, length }).collect();
    Strip {
        lies,
        patches: vec![Patch { plane, corners }],
        length: u[1] - u[0],
        pieces,
        fasteners: 0,
        over_underlayment: false,
    }
}

fn plain_roll() -> Roll {
    let [width, length, side_lap, end_lap] = [36.0, 800.0, 2.0, 4.0].map(Length::inches);
    Roll { name: "a roll".into(), width, length, side_lap, end_lap, weight: Mass::pounds(0.0) }
}

/// Two units, and sheets too thin to count.
fn nails(covering: &Covering) -> NailNeed {
    let thickness = covering.unit.thickness * 2.0;
    NailNeed {
        holds: NailHolds::Units,
        sheet: covering.id.clone(),
        passes: vec![Passed { what: "units", layers: 2, thickness }],
        least: thickness,
        most: None,
        take: thickness,
        given: None,
        per_pound: None,
    }
}

fn sealant() -> Sealant {
    Sealant { bead: Length::inches(0.25), in_joint: 2, on_nail: Length::inches(1.0), tube_fl_oz: 10.0 }
}

fn flashing() -> FlashingChoices {
    let inches = Length::inches;
    FlashingChoices {
        wall_leg: inches(4.0),
        roof_leg: inches(4.0),
        step_length: inches(9.0),
        step_lap: inches(2.0),
        step_hem: inches(0.5),
        above_butt: inches(0.5),
        hem: inches(0.5),
        valley_lap: inches(8.0),
        cleats_apart: inches(24.0),
        rib: inches(1.0),
        area_ratio: 2.0,
        course_lap: inches(4.0),
        joint_lap: inches(4.0),
        past_end: inches(4.0),
        back_leg: inches(12.0),
        counter_leg: inches(4.0),
        raglet: inches(1.0),
        counter_at_walls: false,
        step_nails: 1,
        nails_apart: inches(12.0),
        nail_box: 1000,
        sealant: sealant(),
    }
}

/// What the code asks for; nothing told of the walls.
fn dry_in() -> DryInChoices {
    let [past_wall, over_barrier, end_lap_offset, carried_over] = [24.0, 3.0, 72.0, 6.0].map(Length::inches);
    let [at_laps, in_field] = [6.0, 12.0].map(Length::inches);
    DryInChoices {
        ice_barrier: plain_roll(),
        past_wall,
        wall_face: None,
        wall_thickness: None,
        overhang: None,
        at_valleys: None,
        at_rakes: None,
        round_openings: None,
        over_barrier,
        end_lap_offset,
        carried_over,
        interlayment: plain_roll(),
        drip_edge: plain_roll(),
        drip_edge_nails: in_field,
        drip_edge_over_at_eaves: false,
        drip_edge_over_at_rakes: true,
        drip_edge_metal: None,
        thickness: Length::ZERO,
        fasteners: FastenerGrid { at_laps, in_field, box_count: 1000 },
    }
}

fn deck() -> Deck {
    Deck { kind: Some(DeckKind::Plywood), thickness: Some(Length::inches(0.5)), ..Deck::default() }
}

fn fastener() -> Fastener {
    let [length, shank] = [1.5, 0.12].map(|inches| Some(Length::inches(inches)));
    let (kind, metal, drive) = (Some(FastenerKind::SmoothNail), Some(Metal::Copper), Some(Drive::Hand));
    Fastener { kind, metal, length, shank, drive }
}

/// An edition whose text was read; the rest is told by the cases that ask for it.
fn site() -> Site {
    Site { code: Some(Edition::Of2018), ..Site::default() }
}

fn plane(rise: f64) -> Plane {
    let pitch = Pitch::per_12(rise).unwrap();
    Plane {
        id: "house.0".into(),
        name: "house, south".into(),
        block: "house".into(),
        pitch,
        facing_deg: 180.0,
        known_by: roof::KnownBy::Outline,
        frame: Frame { origin: [0.0; 3], right: [1.0, 0.0], pitch },
        rings: Vec::new(),
    }
}

fn laid(covering: &Covering, exposure: f64) -> LaidPlane {
    let (width, gap, bond) = (covering.unit.width.to_inches(), covering.gap.to_inches(), covering.lap.bond() as usize);
    let shift = (width + gap) / bond as f64;
    let course = |number: usize| Course {
        butt: number as f64 * exposure,
        exposure,
        length: covering.unit.length.to_inches(),
        runs: vec![row(-((number % bond) as f64) * shift, width, gap)],
    };
    let height = exposure + covering.headlap(Length::inches(exposure)).to_inches();
    LaidPlane {
        plane: 0,
        first_butt: 0.0,
        top: Trial::COURSES as f64 * exposure,
        courses: (0..Trial::COURSES).map(course).collect(),
        units: vec![UnitKind { length: covering.unit.length.to_inches(), width, thickness: 0.25, wide: false }],
        starters: vec![Starters {
            butt: 0.0,
            height,
            from: 0.0,
            to: 10.0 * (width + gap),
            left: -(width + gap) / 2.0,
            step: width + gap,
            count: 11,
        }],
        ..LaidPlane::default()
    }
}

fn row(left: f64, width: f64, gap: f64) -> Run {
    Run { left, width, step: width + gap, count: 10, unit: 0, cut: None, joint_before: false, hangs: Hanging::None }
}

/// Exposure bands of a composite unit (common practice, no published source); everything else made up for the tests.
fn covering() -> Covering {
    let inches = Length::inches;
    let pitch = |rise| Pitch::per_12(rise).unwrap();
    let (weight, pack) = (Mass::pounds(2.0), Pack { count: 20 });
    Covering {
        id: "trial".into(),
        name: "Trial unit".into(),
        material: Material::CompositeSlate,
        unit: Unit { length: inches(18.0), width: inches(12.0), thickness: inches(0.25), tapered: false, weight },
        wide: None,
        lap: Lap::Double,
        bands: vec![band(pitch(3.0), Some(pitch(5.0)), 6.0), band(pitch(5.0), None, 7.5)],
        marks: Vec::new(),
        gap: inches(0.25),
        bonds: covering::Bonds::default(),
        joint_offset: inches(3.0),
        least_piece: inches(4.0),
        edges: Edges {
            eave_projection: inches(1.0),
            rake_projection: inches(1.0),
            off_walls: inches(0.5),
            valley_clear: inches(5.0),
            valley_growth: inches(0.0),
            valley_flange: inches(4.0),
            valley_nails_off: inches(0.0),
            high_edge_metal: inches(3.0),
            apron_leg: inches(4.0),
            ridge_slot: inches(0.0),
            made_at_rakes: false,
        },
        starter: Starter { height: None, width: inches(12.0), weight, pack, nails: 2, joint_offset: inches(2.0), layers: 1 },
        cap: Cap {
            length: inches(18.0),
            exposure: inches(7.5),
            cover: inches(5.0),
            hip_cover: inches(5.0),
            nails: 2,
            weight,
            pack,
        },
        nails: Nails { each: 2, penetration: inches(0.75), through_units: 2, box_count: 1000 },
        underlayment: Underlayment {
            name: "felt".into(),
            width: inches(36.0),
            length: Length::feet(144.0),
            top_lap: inches(4.0),
            end_lap: inches(6.0),
            double_below: None,
            weight,
        },
        pack,
        conditions: covering::Conditions::default(),
        cutting: None,
        ridge_metal: None,
        sources: Vec::new(),
        invented: false,
    }
}

fn band(from: Pitch, to: Option<Pitch>, greatest: f64) -> Band {
    let inches = Length::inches;
    Band { from, to, least_exposure: inches(6.0), greatest_exposure: inches(greatest), headlap: inches(3.0) }
}
