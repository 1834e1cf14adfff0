//! What the vents of an attic give in truth.

use details::Vents;

use super::Facts;
use crate::Edition;
use crate::figure::figure;
use crate::rule::{Verdict, absent};
use crate::tally::SLACK;

/// Net free area, square inches.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Air {
    /// Along the ridges.
    pub(crate) upper: f64,
    /// Along the eaves: what is planned there, and no more than fits.
    pub(crate) lower: f64,
}

/// The vents of the job and what they give, or what is missing.
pub(crate) fn air<'a>(facts: &Facts<'a>) -> Result<(&'a Vents, Air), Verdict> {
    let (Some(vents), Some(attic)) = (&facts.details.vents, facts.attic) else {
        return Err(Verdict::missing(&["[attic]"]));
    };
    let (Some(_), Some(soffit)) = (attic.ridge_vent, attic.soffit_vent) else {
        let keys =
            [(attic.ridge_vent.is_some(), "[attic.ridge_vent]"), (attic.soffit_vent.is_some(), "[attic.soffit_vent]")];
        return Err(Verdict::missing(&absent(&keys)));
    };
    let fits = vents.eaves.to_feet() * soffit.nfa_per_foot.to_square_inches();
    let lower = vents.lower.to_square_inches().min(fits);
    Ok((vents, Air { upper: vents.ridge_gives.to_square_inches(), lower }))
}

impl Air {
    /// Of the upper part in all: least and most. 50 to 80 % in 2009, 40 to 50 % from 2012 on and where no edition is known
    /// (International Residential Code R806.2, as pages quote 2009 and 2012; later editions from memory, not read).
    pub(crate) fn shares(code: Option<Edition>) -> [f64; 2] {
        match code {
            Some(Edition::Of2009) => [figure!(0.5), figure!(0.8)],
            _ => [figure!(0.4), figure!(0.5)],
        }
    }

    pub(crate) fn upper_share(self) -> f64 {
        if self.upper + self.lower > 0.0 { self.upper / (self.upper + self.lower) } else { 0.0 }
    }

    pub(crate) fn is_balanced(self, facts: &Facts) -> bool {
        let [least, most] = Self::shares(facts.site.code);
        (least - SLACK..=most + SLACK).contains(&self.upper_share())
    }

    /// 1/300 stands without balanced vents: in 2009 and 2012 one of the two conditions will do, and a retarder is there.
    pub(crate) fn is_earned_otherwise(self, facts: &Facts) -> bool {
        let either_will_do = matches!(facts.site.code, Some(Edition::Of2009 | Edition::Of2012));
        either_will_do && facts.attic.is_some_and(|attic| attic.vapor_retarder == Some(true))
    }

    /// 1/300, which the job's words would give, stands by what the vents give too.
    pub(crate) fn earns_the_lesser_share(self, facts: &Facts) -> bool {
        self.is_balanced(facts) || self.is_earned_otherwise(facts)
    }
}
