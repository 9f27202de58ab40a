//! What an order costs, compared field by field.

/// Steps with a second person.
pub const HELPER_STEPS: usize = 0;
/// Faces set by fingertip or tape under a panel; frames locked without diagonals.
pub const BY_FEEL: usize = 1;
/// Turns and lifted items.
pub const HANDLINGS: usize = 2;
/// Things held.
pub const HOLDS: usize = 3;
/// Distances measured.
pub const MEASURED: usize = 4;
/// Bits changed, clamps put on, joints driven by another tool.
pub const TOOL_CHANGES: usize = 5;
/// Minutes.
pub const MINUTES: usize = 6;
/// Items before this one in the cut list that are still out.
pub const SCATTER: usize = 7;

/// A cost: the first field that differs decides.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Spent(pub [u32; 8]);

impl Spent {
    /// Some of one field.
    pub fn of(field: usize, amount: u32) -> Spent {
        let mut spent = Spent::default();
        spent.add(field, amount);
        spent
    }

    /// More of one field.
    pub fn add(&mut self, field: usize, amount: u32) {
        self.0[field] += amount;
    }

    /// More of all.
    pub fn plus(&mut self, other: &Spent) {
        for (own, more) in self.0.iter_mut().zip(other.0) {
            *own += more;
        }
    }
}
