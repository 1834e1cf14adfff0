//! The job: a measured roof and what it is to be covered with, read from a file that a person typed.

mod attic;
mod dormer;
mod dry_in;
mod file;
mod laying;
mod measured;
mod metal;
mod opening;
mod order;
mod pricing;
mod resolve;
mod schema;
mod setting_out;
mod side;
mod silence;
mod site;
mod stage;
mod turret;

use covering::Covering;
use layout::SettingOut;
use reader::{Format, Mistake, Places, Read, read};
use roof::{Block, Dormer, MeasuredPlane};
use units::Length;

pub use attic::{AtticTable, FramingWord, RidgeVentTable, SoffitVentTable};
pub use checks::{Deck, DeckKind, Drive, Edition, Fastener, FastenerKind, Laying, Metal, Site, WindExposure};
pub use dormer::{DormerKindWord, DormerTable, dormer_path};
pub use dry_in::{DeckJoints, DripEdgeTable, DryInTable, FastenerGridTable, OverOrUnder, RollTable, WallFaceWord};
pub use file::{
    BayTable, BlockTable, BreakTable, CoveringTable, DeckTable, EdgeTable, FastenerTable, HoleTable, JobFile, OutlineAtWord,
    TurretTable,
};
pub use laying::LayingTable;
pub use measured::{EdgeWord, Facing, PlaneTable, UnfinishedPlane};
pub use metal::{FlashingTable, MetalTable, SheetMetalWord};
pub use opening::{MeasuredOpening, MeasuredSpot, OpeningKindWord, OpeningTable, opening_path};
pub use order::{DeliveryTable, OrderTable, OrderWanted, delivery_path};
pub use pricing::{OptionTable, OptionWanted, PriceTable, PriceWanted, RATES_PATH};
pub use schema::{job_schema, sheet_schema};
pub use setting_out::{GradedShare, GraduatedWord, MatchWord, SettingOutTable};
pub use silence::{Silence, SilenceTable, silence_path};
pub use site::SiteTable;
pub use stage::StageTable;

/// Version of the shape of the job file.
const FORMAT: u32 = 1;

/// A job as meant: every number with its unit, every name given.
#[derive(Debug, Clone)]
pub struct Job {
    /// Printed on every paper.
    pub name: String,
    /// What the roof is covered with.
    pub covering: CoveringChoice,
    /// Roofed volumes, in the order of the file.
    pub blocks: Vec<Block>,
    /// Dormers, in the order of the file.
    pub dormers: Vec<Dormer>,
    /// Chimneys, skylights, pipes and vents, in the order of the file.
    pub openings: Vec<MeasuredOpening>,
    /// Planes measured by themselves, in the order of the file.
    pub planes: Vec<MeasuredPlane>,
    /// Planes by tape that lack a measure, in the order of the file; they are not among [`Job::planes`].
    pub unfinished: Vec<UnfinishedPlane>,
    /// What is chosen before a course line is set.
    pub setting_out: SettingOut,
    /// The most that any course shows, if the sheet's limit is not to be reached.
    pub exposure: Option<Length>,
    /// What the units are nailed to, if told.
    pub deck: Option<Deck>,
    /// What was found of the deck.
    pub deck_found: details::Deck,
    /// What is laid under the units.
    pub dry_in: details::DryInChoices,
    /// Sheet that flashings are bent from.
    pub sheet_metal: details::SheetStock,
    /// How flashings are bent, lapped and held.
    pub flashing: details::FlashingChoices,
    /// The attic, if told.
    pub attic: Option<details::Attic>,
    /// Cold and code of the site.
    pub climate: details::Climate,
    /// What the units are fastened with, if told.
    pub fastener: Option<Fastener>,
    /// How many of the fasteners weigh a pound, if told.
    pub nails_per_pound: Option<f64>,
    /// Direction of north in plan, degrees clockwise from +y.
    pub north_deg: f64,
    /// Where the house stands.
    pub site: Site,
    /// The day on which the units are laid.
    pub laying: Laying,
    /// What is ordered beyond the count, and when it comes.
    pub order: OrderWanted,
    /// How units are staged.
    pub stage: takeoff::StageChoices,
    /// Weight of the old covering that comes off, pounds a square foot of slope, if told.
    pub old_psf: Option<f64>,
    /// What is to be priced.
    pub price: PriceWanted,
    /// Covering sheets of the job's own, in the order of the file.
    pub sheets: Vec<Covering>,
    /// Findings that somebody accepts, in the order of the file.
    pub silences: Vec<Silence>,
    /// Where everything stands in the file.
    pub places: Places,
}

impl Job {
    /// Path in the job file of one of [`Job::planes`], which the file counts together with the unfinished ones.
    #[must_use]
    pub fn path_of_measured(&self, plane: usize) -> String {
        plane_path(self.unfinished.iter().fold(plane, |at, unfinished| at + usize::from(unfinished.index <= at)))
    }
}

/// The sheet that a job names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CoveringChoice {
    /// Id in the catalogue, or path of a sheet, as typed.
    pub sheet: String,
    /// It is the path of a sheet.
    pub is_file: bool,
    /// Where the job file names it.
    pub path: String,
}

/// Reads a job file. The job is absent if there is any mistake; every mistake carries its place.
#[must_use]
pub fn read_job(text: &str, format: Format) -> (Option<Job>, Vec<Mistake>) {
    let Read { value, mistakes, places } = read::<JobFile>(text, format);
    let Some(file) = value else { return (None, mistakes) };
    let (job, mut mistakes) = resolve::job(&file, &places);
    mistakes.sort_by_key(|mistake| mistake.span.start);
    (mistakes.is_empty().then_some(job), mistakes)
}

/// Path in the job file of a block: `block[0]`. Its sides are `block[0].edges[2]`, its corners `block[0].outline[2]`.
#[must_use]
pub fn block_path(index: usize) -> String {
    format!("block[{index}]")
}

/// Path in the job file of a plane measured by itself: `plane[0]`.
#[must_use]
pub fn plane_path(index: usize) -> String {
    format!("plane[{index}]")
}
