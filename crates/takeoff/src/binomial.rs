/// Chance that more than `most` of `of` break, each by itself at `rate` (0 to below 1).
///
/// The upper tail of the binomial distribution, P(X > most) for X ~ B(of, rate). Its terms are summed outwards from the
/// greatest by their ratios, (n − k) / (k + 1) × p / (1 − p): every term is positive and none needs a factorial, so nothing
/// cancels and nothing overflows.
#[must_use]
pub fn chance_of_more(of: u64, rate: f64, most: u64) -> f64 {
    if most >= of || rate <= 0.0 {
        return 0.0;
    }
    let odds = rate / (1.0 - rate);
    let greatest = (((of + 1) as f64 * rate) as u64).min(of);
    let up = (greatest..of).map(|k| (k + 1, (of - k) as f64 / (k + 1) as f64 * odds));
    let down = (1..=greatest).rev().map(|k| (k - 1, k as f64 / (of - k + 1) as f64 / odds));
    let mut sums = Sums { most, within: 0.0, beyond: 0.0 };
    sums.add(greatest, 1.0);
    sums.walk(up, |k| k > most);
    sums.walk(down, |k| k <= most);
    sums.beyond / (sums.beyond + sums.within)
}

/// Sums of terms, the greatest of which counts 1, up to `most` and beyond it.
struct Sums {
    most: u64,
    within: f64,
    beyond: f64,
}

impl Sums {
    /// Whether it made a difference.
    fn add(&mut self, k: u64, term: f64) -> bool {
        let sum = if k > self.most { &mut self.beyond } else { &mut self.within };
        let before = *sum;
        *sum += term;
        *sum > before
    }

    /// Terms away from the greatest, each told by its ratio to the one before. On its last side a walk ends with the first term
    /// that makes no difference; before, the terms of that side are still to come.
    fn walk(&mut self, ratios: impl Iterator<Item = (u64, f64)>, is_last_side: impl Fn(u64) -> bool) {
        let mut term = 1.0;
        for (k, ratio) in ratios {
            term *= ratio;
            if term <= 0.0 || (!self.add(k, term) && is_last_side(k)) {
                break;
            }
        }
    }
}
