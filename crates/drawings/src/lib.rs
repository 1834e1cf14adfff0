//! Papers: what stands in the plan, drawn once as scenes; a scene becomes SVG here and other formats elsewhere.
//!
//! Nothing here decides anything about the roof, and nothing here writes a file.

mod clear;
mod cut_sheets;
mod details;
mod figure;
mod heading;
mod lettering;
mod listing;
mod page;
mod pole_strips;
mod rect;
mod ring;
mod roof_plan;
mod scale;
mod scale_bar;
mod scene;
mod setting_out;
mod stage;
mod surface;
mod svg;
mod table;
mod title_block;
mod words;

pub use cut_sheets::cut_sheets;
pub use details::{Detail, details};
pub use figure::Figure;
pub use page::Page;
pub use pole_strips::pole_strips;
pub use roof_plan::{roof_figure, roof_plan};
pub use scale::Scale;
pub use scene::{Anchor, Fill, Item, LineType, Point, Scene, Text};
pub use setting_out::{CutUse, OnSheet, cut_uses, mark, on_sheet, plane_figure, setting_out, setting_out_in};
pub use stage::{stage, stage_figure};
pub use svg::svg;
pub use words::{English, WORDS, Words};
