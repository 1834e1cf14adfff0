//! The room's one verb: gathers the others and turns their values into a plan.

use covering::{Catalog, Covering};
use layout::{Course as LaidCourse, LaidPlane as Laid, Layout as Laying};
use roof::{MeasuredPart, Part, Plane as Surface, Point3, Roof as Shape};
use units::Length;

use crate::cautions::cautions;
use crate::checked::{checks, silences_of_nothing};
use crate::cutting::cuttings;
use crate::job::{UnfinishedPlane, block_path, dormer_path, opening_path, plane_path};
use crate::own_sheets::as_job_has_it;
use crate::{
    Bevel, Course, CoveringUsed, Cut, Edge, FORMAT, Job, LaidPlane, Layout, Line, Made, Plan, Plane, Problem, ProblemPlace,
    Roof, Run, Severity, Starters, Totals, Unit, Wall,
};
use crate::{courses, details_told, loads, openings, ordering, placing, waste};

/// Plans a job. Pure: the same job and catalogue give the same plan, on any machine.
///
/// What cannot be planned is absent and named in [`Plan::problems`]; the rest is there. A sheet given as a path must be
/// in the catalogue under that path.
#[must_use]
pub fn plan(job: &Job, catalog: &Catalog) -> Plan {
    let catalog = &as_job_has_it(job, catalog);
    let Surveyed { roof, cheeks, mut problems } = survey(job);
    let chosen = catalog.get(&job.covering.sheet).map(|covering| layout::as_set_out(covering, &job.setting_out));
    let covering = chosen.as_deref();
    if covering.is_none() {
        problems.push(unknown_sheet(job, catalog));
    }
    let is_laid = |plane: &Surface| !openings::is_cricket(&roof, plane);
    let by_sheet: Vec<Option<&Covering>> = roof.planes.iter().map(|plane| covering.filter(|_| is_laid(plane))).collect();
    let ridge_vent = job.attic.and_then(|attic| attic.ridge_vent);
    let slotted = covering.map(|covering| details::with_vent_slot(covering, ridge_vent.as_ref()));
    let covering_of = |plane: &Surface| slotted.as_deref().filter(|_| is_laid(plane));
    let coverings: Vec<Option<&Covering>> = roof.planes.iter().map(covering_of).collect();
    let laying = layout::lay_roof(&roof, covering_of, &job.setting_out);
    if let Some(sheet) = catalog.get(&job.covering.sheet) {
        let not_laid = [courses::bond_not_allowed, courses::not_staggered, courses::not_graduated];
        problems.extend(not_laid.iter().filter_map(|asked| asked(job, sheet)));
    }
    problems.extend(courses::problems(job, &roof, &laying));
    let details = placing::details(job, &roof, &laying, &by_sheet);
    let cutting = layout::cut_roof(&roof, &laying, covering_of);
    let (choices, wrong) = ordering::choices(job, &roof);
    problems.extend(wrong);
    let order = takeoff::count(&roof, &laying, &cutting, &details, &choices, covering_of);
    let stock = order.stock;
    let packs = order.lines.iter().filter(|line| line.id.starts_with("field-units")).map(|line| line.packs).sum();
    let loads = loads::loads(job, &roof, &laying, &details, covering, packs);
    let lost = takeoff::waste(&roof, &laying, &cutting, covering_of);
    let (order, deliveries) = ordering::told(&roof, order);
    let pack = covering.map_or(0, |covering| covering.pack.count);
    let lost = lost.iter().map(|of| waste::told(of, &order, pack)).collect();
    problems.extend(silences_of_nothing(job, &roof));
    let (checks, wind) = checks(job, &roof, &laying, &coverings, &details);
    Plan {
        format: FORMAT,
        name: job.name.clone(),
        covering: covering_used(job, covering),
        problems,
        layout: Layout { waste: lost, ..layout(&roof, &laying, covering, stock, &cutting) },
        details: details_told::details(&roof, &details),
        order,
        deliveries,
        loads,
        cautions: cautions(&checks),
        checks,
        wind,
        roof: shape(&roof, cheeks, job.north_deg),
    }
}

/// Raises the roof alone, for a hand that is still drawing: [`Plan::roof`], and what is wrong with it. Pure, as [`plan`] is.
#[must_use]
pub fn raise(job: &Job) -> (Roof, Vec<Problem>) {
    let Surveyed { roof, cheeks, problems } = survey(job);
    (shape(&roof, cheeks, job.north_deg), problems)
}

/// The roof of a job, with what is wrong with it.
pub(crate) struct Surveyed {
    pub(crate) roof: Shape,
    pub(crate) cheeks: Vec<roof::Wall>,
    pub(crate) problems: Vec<Problem>,
}

pub(crate) fn survey(job: &Job) -> Surveyed {
    let alone = roof::build(&job.blocks, job.north_deg);
    let (raised, cheeks) = roof::with_dormers(alone, &job.blocks, &job.dormers, job.north_deg);
    let roof::Built { roof, problems } = roof::with_measured(raised, &job.planes, job.north_deg);
    let mut problems: Vec<Problem> = problems.into_iter().map(|problem| roof_problem(job, problem)).collect();
    problems.extend(job.unfinished.iter().map(|plane| plane_unfinished(job, plane)));
    let (roof, misplaced) = openings::cut_out(job, roof);
    problems.extend(misplaced);
    Surveyed { roof, cheeks, problems }
}

fn covering_used(job: &Job, covering: Option<&Covering>) -> CoveringUsed {
    let cutting = covering.and_then(|covering| covering.cutting);
    CoveringUsed {
        sheet: job.covering.sheet.clone(),
        name: covering.map_or_else(String::new, |covering| covering.name.clone()),
        invented: covering.is_some_and(|covering| covering.invented),
        length_in: covering.map_or(0.0, |covering| covering.unit.length.to_inches()),
        width_in: covering.map_or(0.0, |covering| covering.unit.width.to_inches()),
        gap_in: covering.map_or(0.0, |covering| covering.gap.to_inches()),
        nails_each: covering.map_or(0, |covering| covering.nails.each),
        nail_penetration_in: covering.map_or(0.0, |covering| covering.nails.penetration.to_inches()),
        cutting_tool: cutting.map_or("", |cutting| cutting.tool.name()),
        kerf_in: cutting.map_or(0.0, |cutting| cutting.kerf.to_inches()),
        stained_by: covering.map_or_else(Vec::new, |covering| covering.conditions.stained_by.clone()),
    }
}

pub(crate) fn unknown_sheet(job: &Job, catalog: &Catalog) -> Problem {
    let sheet = &job.covering.sheet;
    let remedy = match catalog.nearest(sheet) {
        Some(nearest) => format!("did you mean \"{nearest}\"?"),
        None => format!("the sheets are {}", catalog.sheets.keys().cloned().collect::<Vec<_>>().join(", ")),
    };
    Problem {
        code: "unknown-sheet".into(),
        severity: Severity::Error,
        says: format!("there is no covering sheet \"{sheet}\", so nothing is laid"),
        remedy,
        place: place_in_file(job, &job.covering.path, "", ""),
    }
}

pub(crate) fn place_in_file(job: &Job, path: &str, block: &str, plane: &str) -> ProblemPlace {
    let line = job.places.line(path).unwrap_or_default();
    ProblemPlace { block: block.into(), plane: plane.into(), line, path: path.into() }
}

fn roof_problem(job: &Job, problem: roof::Problem) -> Problem {
    let place = match problem.part {
        Part::Measured { plane, at } => {
            let id = format!("plane.{}", problem.block);
            place_in_file(job, &measured_path(&job.path_of_measured(plane), at), "", &id)
        }
        part => {
            let block = job.blocks.iter().position(|block| block.name == problem.block);
            let in_block = block.map(|index| part_path(&block_path(index), part));
            let path = in_block.or_else(|| path_of_dormer(job, &problem.block)).unwrap_or_default();
            place_in_file(job, &path, &problem.block, "")
        }
    };
    Problem {
        code: problem.code.into(),
        severity: severity(problem.severity),
        says: problem.says,
        remedy: problem.remedy,
        place,
    }
}

fn plane_unfinished(job: &Job, plane: &UnfinishedPlane) -> Problem {
    let lacks = plane.lacks();
    let (says, remedy) = match lacks.len() {
        5 => (
            format!("{} has neither tapes nor corners", plane.name),
            "Give pitch, eave, top, left_rake and right_rake as taped, or corners = [[x, y, height], ...].",
        ),
        _ => (
            format!("{} lacks {}", plane.name, lacks.join(", ")),
            "Give all of pitch, eave, top, left_rake and right_rake; top = 0 for a triangle.",
        ),
    };
    Problem {
        code: "plane-unfinished".into(),
        severity: Severity::Error,
        says,
        remedy: remedy.into(),
        place: place_in_file(job, &plane_path(plane.index), "", ""),
    }
}

fn measured_path(plane: &str, at: MeasuredPart) -> String {
    match at {
        MeasuredPart::Whole => format!("{plane}.name"),
        MeasuredPart::Key(key) => format!("{plane}.{key}"),
        MeasuredPart::Corner { hole: None, corner } => format!("{plane}.corners[{corner}]"),
        MeasuredPart::Corner { hole: Some(hole), corner } => format!("{plane}.holes[{hole}][{corner}]"),
        MeasuredPart::Edge(edge) => format!("{plane}.edges.{edge}"),
        MeasuredPart::Meets(edge) => format!("{plane}.meets.{edge}"),
    }
}

/// A dormer's block has its name.
fn path_of_dormer(job: &Job, block: &str) -> Option<String> {
    job.dormers.iter().position(|dormer| dormer.name == block).map(dormer_path)
}

pub(crate) const fn severity(severity: roof::Severity) -> Severity {
    match severity {
        roof::Severity::Error => Severity::Error,
        roof::Severity::Caution => Severity::Caution,
    }
}

fn part_path(block: &str, part: Part) -> String {
    let ring = |hole: Option<usize>| hole.map_or_else(|| block.into(), |hole| format!("{block}.holes[{hole}]"));
    match part {
        Part::Whole | Part::Measured { .. } => format!("{block}.outline"),
        Part::Corner { hole, corner } => format!("{}.outline[{corner}]", ring(hole)),
        Part::Opening { opening } => opening_path(opening),
        Part::Side { hole, side } => format!("{}.edges[{side}]", ring(hole)),
    }
}

pub(crate) fn feet([x, y, z]: Point3) -> [f64; 3] {
    [x / 12.0, y / 12.0, z / 12.0]
}

pub(crate) fn id_of(roof: &Shape, plane: usize) -> String {
    roof.planes.get(plane).map_or_else(String::new, |plane| plane.id.clone())
}

fn shape(roof: &Shape, walls: Vec<roof::Wall>, north_deg: f64) -> Roof {
    Roof {
        planes: roof.planes.iter().map(|plane| surface(roof, plane)).collect(),
        lines: roof
            .lines
            .iter()
            .map(|line| Line {
                kind: line.kind.name(),
                length_ft: line.length().to_feet(),
                ends_ft: line.ends.map(feet),
                planes: line.planes.iter().map(|&plane| id_of(roof, plane)).collect(),
            })
            .collect(),
        walls: walls.into_iter().map(wall).collect(),
        openings: openings::openings(roof),
        totals: totals(roof),
        north_deg,
    }
}

fn wall(wall: roof::Wall) -> Wall {
    Wall { name: wall.name, area_sqft: wall.area.to_square_feet() }
}

fn surface(roof: &Shape, plane: &Surface) -> Plane {
    Plane {
        id: plane.id.clone(),
        name: plane.name.clone(),
        pitch: plane.pitch.rise(),
        facing_deg: plane.facing_deg,
        known_by: plane.known_by.name(),
        area_sqft: plane.area().to_square_feet(),
        outlines_ft: plane.rings.iter().map(|ring| ring.corners.iter().copied().map(feet).collect()).collect(),
        edges: plane.rings.iter().flat_map(|ring| edges(roof, ring)).collect(),
        outlines_in: plane.places(),
    }
}

fn edges<'a>(roof: &'a Shape, ring: &'a roof::Ring) -> impl Iterator<Item = Edge> + 'a {
    ring.edges.iter().enumerate().map(move |(at, edge)| {
        let ends = [ring.corners[at], ring.corners[(at + 1) % ring.corners.len()]];
        let line = roof::Line { kind: edge.kind, ends, planes: Vec::new() };
        Edge {
            kind: edge.kind.name(),
            length_ft: line.length().to_feet(),
            meets: edge.meets.map_or_else(String::new, |plane| id_of(roof, plane)),
        }
    })
}

fn totals(roof: &Shape) -> Totals {
    use roof::EdgeKind as Kind;
    let sum = |kind| roof.lines.iter().filter(|line| line.kind == kind).map(|line| line.length().to_feet()).sum();
    Totals {
        // The sum of no areas is -0.
        area_sqft: roof.planes.iter().map(|plane| plane.area().to_square_feet()).sum::<f64>() + 0.0,
        plan_area_sqft: roof.plan_area.to_square_feet(),
        eave_ft: sum(Kind::Eave),
        rake_ft: sum(Kind::Rake),
        ridge_ft: sum(Kind::Ridge),
        hip_ft: sum(Kind::Hip),
        valley_ft: sum(Kind::Valley),
        sidewall_ft: sum(Kind::Sidewall),
        headwall_ft: sum(Kind::Headwall),
        break_ft: sum(Kind::Break),
        high_edge_ft: sum(Kind::HighEdge),
        dead_valley_ft: sum(Kind::DeadValley),
        opening_sill_ft: sum(Kind::Sill),
        opening_side_ft: sum(Kind::Side),
        opening_head_ft: sum(Kind::Head),
        height_ft: roof.height / 12.0,
    }
}

fn layout(
    roof: &Shape,
    laying: &Laying,
    covering: Option<&Covering>,
    stock: takeoff::Stock,
    cutting: &[layout::Cutting],
) -> Layout {
    let (whole, cut) = laying.planes.iter().map(Laid::counts).fold((0, 0), |sum, c| (sum.0 + c.whole, sum.1 + c.cut));
    Layout {
        planes: laying.planes.iter().map(|laid| laid_plane(roof, laid, covering)).collect(),
        pieces: whole + cut,
        whole,
        cut,
        stock: stock.units,
        stock_bound: stock.bound,
        matched: laying.matched.iter().map(|of| courses::matched(roof, of)).collect(),
        unmatched: laying.unmatched.iter().map(|of| courses::unmatched(roof, of)).collect(),
        cutting: cuttings(roof, laying, cutting),
        waste: Vec::new(),
    }
}

fn laid_plane(roof: &Shape, laid: &Laid, covering: Option<&Covering>) -> LaidPlane {
    LaidPlane {
        id: id_of(roof, laid.plane),
        first_butt_in: laid.first_butt,
        top_in: laid.top,
        step_in: laid.step,
        peak_in: laid.peak,
        cant_in: cant(laid, covering),
        lengths: courses::lengths(laid, covering),
        starter_layers: covering.map_or(1, |covering| covering.starter.layers),
        courses: laid.courses.iter().enumerate().map(|(index, row)| course(index, row, laid, covering)).collect(),
        cuts: laid.cuts.iter().map(cut).collect(),
        units: (0..laid.units.len()).map(|kind| unit(laid, kind)).collect(),
        laid_in: laid.laid.clone(),
        starters: laid
            .starters
            .iter()
            .map(|row| Starters {
                butt_in: row.butt,
                height_in: row.height,
                span_in: [row.from, row.to],
                left_in: row.left,
                step_in: row.step,
                count: row.count,
            })
            .collect(),
        stations: courses::stations(laid),
        poles: laid.poles.iter().map(courses::pole).collect(),
        guides: laid.guides.iter().map(courses::guide).collect(),
        out_of_square: laid.out_of_square.map(courses::out_of_square),
        off_the_marks: courses::off_the_marks(laid),
    }
}

/// Of the strip under the starters.
fn cant(laid: &Laid, covering: Option<&Covering>) -> Option<f64> {
    let first = laid.courses.first()?;
    let unit = laid.units.iter().find(|unit| (unit.length - first.length).abs() < 1e-6)?;
    let of = [unit.length, unit.thickness].map(Length::inches);
    Some(covering?.cant(Length::inches(first.exposure), of)?.to_inches())
}

fn unit(laid: &Laid, kind: usize) -> Unit {
    let (unit, nails) = (laid.units[kind], laid.nails.get(kind));
    Unit {
        length_in: unit.length,
        width_in: unit.width,
        thickness_in: unit.thickness,
        wide: unit.wide,
        nails_in: nails.cloned().unwrap_or_default(),
    }
}

fn cut(cut: &layout::Cut) -> Cut {
    let bevel = |bevel: &layout::Bevel| Bevel {
        kind: bevel.kind.map_or("joint", roof::EdgeKind::name),
        angle_deg: bevel.angle,
        facing: bevel.facing.name(),
        ends_in: bevel.line,
    };
    Cut {
        parts_in: cut.parts.clone(),
        width_in: cut.width,
        area_sqin: cut.area,
        hand: cut.hand().map(layout::Side::name),
        bevels: cut.bevels.iter().map(bevel).collect(),
        made: Made { butt: cut.made.butt, left: cut.made.left, right: cut.made.right },
        nails_in: cut.nails.clone(),
    }
}

fn course(index: usize, row: &LaidCourse, laid: &Laid, covering: Option<&Covering>) -> Course {
    let headlap = covering.map(|covering| laid.headlap(index, covering));
    Course {
        butt_in: row.butt,
        exposure_in: row.exposure,
        length_in: row.length,
        headlap_in: headlap.map_or(0.0, Length::to_inches),
        spans_in: row.spans(&laid.cuts),
        joints_in: row.joints(),
        runs: row
            .runs
            .iter()
            .map(|run| Run {
                left_in: run.left,
                width_in: run.width,
                step_in: run.step,
                count: run.count,
                cut: run.cut,
                unit: run.unit,
                hangs: match run.hangs {
                    layout::Hanging::None => None,
                    layout::Hanging::First => Some(0),
                    layout::Hanging::Second => Some(1),
                },
            })
            .collect(),
    }
}
