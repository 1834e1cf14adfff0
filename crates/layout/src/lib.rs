//! Setting out: every course, joint, piece and cut of one plane.
//!
//! Two outlines. The *laid* outline is where units are cut; the *weathered* one is what rain and people see of them.
//! Course lines are spread from the first butts to the top line, evenly or to meet fixed heights and other planes' courses;
//! along a course units lie in cells of equal width; an edge of the outline cuts the few units that it touches, and all the
//! others are whole.

mod better;
mod bevel;
mod bond;
mod course;
mod courses;
mod cut;
mod cutting;
mod fan;
mod finding;
mod laid_plane;
mod lay;
mod legal;
mod mix;
mod nailing;
mod outline;
mod piece;
mod pole;
mod random;
mod relay;
mod relay_neighbour;
mod resplit;
mod set_out;
mod setting_out;
mod square;
mod start;
mod starters;
mod strip;

pub use bevel::{Bevel, Facing, Made, Side};
pub use course::{Course, Hanging, Joints, Run};
pub use courses::{Limit, Matched, OddCourse, Remedy, Station, StationSide, Unmatched, WayOut, Why};
pub use cut::Cut;
pub use cutting::{CutUnit, Cutout, Cutting, Hand, Kept, Origin, PieceKind, Saw, cut_roof, cut_units};
pub use finding::{Fault, Finding};
pub use laid_plane::{Counts, LaidPlane, Layout, UnitKind};
pub use lay::{lay, lay_roof};
pub use outline::{laid, weathered};
pub use pole::{Guide, Mark, Pole, PoleSide, PoleStation};
pub use relay::{Checked, End, InTheWay, NoRoom, Reading, Relaid, Relaying, Spread, Way, relay};
pub use relay_neighbour::Neighbour;
pub use setting_out::{Graduated, Hips, MatchHips, SettingOut, Valleys, as_set_out};
pub use square::OutOfSquare;
pub use starters::Starters;
