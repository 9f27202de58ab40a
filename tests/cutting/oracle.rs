//! The best that any layout of a few parts can do, by trying all ways to part a sheet.
//!
//! Works with real sizes and a real kerf, and asks for sets of parts whether one sheet holds them: the first strip
//! takes some of the parts, is as narrow as they allow, and the rest goes into what is left.

use std::collections::BTreeMap;

use jointwise::assembly::Grain;
use jointwise::cutting::{GrainRule, Job, Stages, Stock};

/// All pieces of a job of one material without trims, scraps or smallest cut: at most seven.
pub struct Oracle<'a> {
    job: &'a Job,
    /// Index into the job's parts, each as often as it is wanted.
    pieces: Vec<usize>,
    held: BTreeMap<Question, bool>,
}

/// Stock, parts, size of the piece, axis of its first cuts, stages left.
type Question = (usize, u32, [i64; 2], usize, u32);

impl<'a> Oracle<'a> {
    /// For a job.
    pub fn new(job: &'a Job) -> Self {
        let pieces = (0..job.parts.len())
            .flat_map(|p| (0..job.parts[p].count).map(move |_| p))
            .collect::<Vec<_>>();
        assert!(pieces.len() <= 7, "too many to try all");
        Oracle { job, pieces, held: BTreeMap::new() }
    }

    /// The least price of sheets for all parts, each kind of sheet as often as it takes; none if a part fits nowhere.
    pub fn least_price(&mut self) -> Option<i64> {
        let all = (1u32 << self.pieces.len()) - 1;
        let mut least: Vec<Option<i64>> = vec![None; all as usize + 1];
        least[0] = Some(0);
        for set in 1..=all {
            let lowest = set & set.wrapping_neg();
            let mut group = set;
            while group > 0 {
                if group & lowest > 0
                    && let Some(rest) = least[(set & !group) as usize]
                {
                    for stock in 0..self.job.stock.len() {
                        let price = rest + self.job.stock[stock].price;
                        if least[set as usize].is_none_or(|l| price < l) && self.holds(stock, group)
                        {
                            least[set as usize] = Some(price);
                        }
                    }
                }
                group = (group - 1) & set;
            }
        }
        least[all as usize]
    }

    /// The most value that one sheet of the first stock holds.
    pub fn most_value(&mut self) -> i64 {
        let all = 1u32 << self.pieces.len();
        let value = |set: u32| -> i64 {
            let inside = (0..self.pieces.len()).filter(|n| set & (1 << n) > 0);
            inside.map(|n| self.job.parts[self.pieces[n]].value).sum()
        };
        let values: Vec<i64> = (0..all).map(value).collect();
        (0..all)
            .filter(|set| *set == 0 || self.holds(0, *set))
            .map(|set| values[set as usize])
            .max()
            .unwrap_or(0)
    }

    fn holds(&mut self, stock: usize, set: u32) -> bool {
        let stages = match self.job.stages {
            Stages::Two => 2,
            Stages::Three => 3,
            Stages::Four => 4,
            Stages::Unlimited => 20,
        };
        let Stock { length, width, .. } = self.job.stock[stock];
        [0, 1].into_iter().any(|axis| self.fits(stock, set, [length, width], axis, stages))
    }

    /// Whether a piece of that size gives all these parts, its first cuts parting along the axis.
    fn fits(&mut self, stock: usize, set: u32, size: [i64; 2], axis: usize, stages: u32) -> bool {
        if size.iter().any(|s| *s <= 0) {
            return false;
        }
        let one = set.is_power_of_two();
        if one && self.ways(stock, set.trailing_zeros() as usize).contains(&size) {
            return true;
        }
        // Each part takes two changes of direction at most: what is left over beyond that changes nothing.
        let stages = stages.min(2 * set.count_ones());
        if stages == 0 {
            return false;
        }
        let question = (stock, set, size, axis, stages);
        if let Some(known) = self.held.get(&question) {
            return *known;
        }
        let lowest = set & set.wrapping_neg();
        let mut answer = false;
        let mut strip = set;
        while strip > 0 && !answer {
            if strip & lowest > 0
                && let Some(wide) = self.narrowest(stock, strip, size, axis, stages - 1)
            {
                let rest = set & !strip;
                let mut left = size;
                left[axis] -= wide + self.job.kerf;
                answer = rest == 0 || self.fits(stock, rest, left, axis, stages);
            }
            strip = (strip - 1) & set;
        }
        self.held.insert(question, answer);
        answer
    }

    /// How narrow a strip of these parts can be along the axis, within that size.
    fn narrowest(
        &mut self,
        stock: usize,
        set: u32,
        size: [i64; 2],
        axis: usize,
        stages: u32,
    ) -> Option<i64> {
        let mut widths = vec![-self.job.kerf];
        for n in (0..self.pieces.len()).filter(|n| set & (1 << n) > 0) {
            let more: Vec<i64> = self
                .ways(stock, n)
                .iter()
                .flat_map(|way| {
                    widths.iter().map(|w| w + way[axis] + self.job.kerf).collect::<Vec<_>>()
                })
                .collect();
            widths.extend(more);
        }
        widths.retain(|w| (1..=size[axis]).contains(w));
        widths.sort_unstable();
        widths.dedup();
        widths.into_iter().find(|wide| {
            let mut strip = size;
            strip[axis] = *wide;
            self.fits(stock, set, strip, 1 - axis, stages)
        })
    }

    /// Sizes along x and y in which a piece may lie.
    fn ways(&self, stock: usize, piece: usize) -> Vec<[i64; 2]> {
        let part = &self.job.parts[self.pieces[piece]];
        let (straight, turned) = ([part.length, part.width], [part.width, part.length]);
        match (part.grain, self.job.stock[stock].grain) {
            (GrainRule::Free, _) | (_, Grain::None) => vec![straight, turned],
            (_, Grain::Length) => vec![straight],
            (_, Grain::Width) => vec![turned],
        }
    }
}
