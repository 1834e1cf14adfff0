//! What details are placed from, gathered from the job and the roof.

use covering::Covering;
use details::{Details, Given, NailChoices, place};
use geom::region::{Region, area, either};
use layout::Layout;
use roof::{Roof, inside_walls, overhangs};
use units::Area;

use crate::Job;

/// Places the details of a job.
pub(crate) fn details(job: &Job, roof: &Roof, layout: &Layout, covering_of: &[Option<&Covering>]) -> Details {
    let deck = details::Deck { thickness: job.deck.and_then(|deck| deck.thickness), ..job.deck_found };
    place(&Given {
        roof,
        layout,
        covering_of,
        overhang_of: &overhangs(roof, &job.blocks, &job.dormers),
        floor_area: floor_area(job),
        climate: job.climate,
        deck,
        dry_in: &job.dry_in,
        sheet_metal: &job.sheet_metal,
        flashing: &job.flashing,
        nails: NailChoices {
            length: job.fastener.and_then(|fastener| fastener.length),
            per_pound: job.nails_per_pound,
            exposed_soffit: job.deck.and_then(|deck| deck.exposed_soffit) == Some(true),
        },
        attic: job.attic,
    })
}

/// Inside the wall lines of all blocks, each place once; nothing where one is not known or planes stand by themselves.
fn floor_area(job: &Job) -> Option<Area> {
    if job.blocks.is_empty() || !job.planes.is_empty() {
        return None;
    }
    let mut floor = Region::new();
    for block in &job.blocks {
        floor = either(&inside_walls(block)?, &floor);
    }
    Some(Area::square_inches(area(&floor)))
}
