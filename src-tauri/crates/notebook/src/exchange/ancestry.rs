//! Who follows from whom: saved states and what they follow, and nothing else of them.

use std::collections::{HashMap, HashSet};
use std::hash::Hash;

/// Saved states, each with the state that it follows and the other one, where a conflict was settled.
#[derive(Debug, Clone)]
pub(super) struct Ancestry<N> {
    parents: HashMap<N, [Option<N>; 2]>,
    /// States from which another one was written directly; what they hold is found by walking back.
    followed: HashSet<N>,
}

/// Where a version that came stands to those that are here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Place<N> {
    /// There is no version here.
    First,
    /// It is the one that stands here.
    Same,
    /// It follows from the one that stands here.
    Ahead,
    /// The one that stands here follows from it.
    Behind,
    /// It is this version that lies aside, or that one follows from it.
    Aside(N),
    /// Neither follows from the other.
    Apart,
}

impl<N: Copy + Eq + Hash> Ancestry<N> {
    /// Takes states with their two parents.
    pub fn of(states: impl IntoIterator<Item = (N, [Option<N>; 2])>) -> Self {
        let parents: HashMap<_, _> = states.into_iter().collect();
        let followed = parents.values().filter_map(|[parent, _]| *parent).collect();
        Self { parents, followed }
    }

    /// Tells whether a state is known.
    pub fn knows(&self, node: N) -> bool {
        self.parents.contains_key(&node)
    }

    /// Tells whether what a state holds can only be found where it is stored whole.
    pub fn is_end(&self, node: N) -> bool {
        !self.followed.contains(&node)
    }

    /// Gives a state and everything that it follows from.
    pub fn behind(&self, node: N) -> HashSet<N> {
        let (mut met, mut waiting) = (HashSet::new(), vec![node]);
        while let Some(node) = waiting.pop() {
            if met.insert(node) {
                waiting.extend(self.parents.get(&node).into_iter().flatten().flatten());
            }
        }
        met
    }

    /// Finds the place of a version that came. `head` is the version that stands here.
    pub fn place(&self, head: Option<N>, asides: impl IntoIterator<Item = N>, came: N) -> Place<N> {
        let Some(head) = head else { return Place::First };
        if came == head {
            return Place::Same;
        }
        if self.behind(came).contains(&head) {
            return Place::Ahead;
        }
        if self.behind(head).contains(&came) {
            return Place::Behind;
        }
        let above = asides.into_iter().find(|aside| self.behind(*aside).contains(&came));
        above.map_or(Place::Apart, Place::Aside)
    }

    /// Gives the states in an order in which each stands behind those that it follows; nothing where one follows from
    /// itself or from one that is not there.
    pub fn in_order(&self) -> Option<Vec<N>> {
        let mut left: HashMap<N, usize> = HashMap::new();
        let mut after: HashMap<N, Vec<N>> = HashMap::new();
        for (node, parents) in &self.parents {
            for parent in parents.iter().flatten() {
                after.entry(*parent).or_default().push(*node);
            }
            left.insert(*node, parents.iter().flatten().count());
        }
        let mut order: Vec<N> = left.iter().filter(|(_, left)| **left == 0).map(|(node, _)| *node).collect();
        let mut at = 0;
        while let Some(node) = order.get(at).copied() {
            at += 1;
            for next in after.remove(&node).unwrap_or_default() {
                let left = left.get_mut(&next)?;
                *left -= 1;
                if *left == 0 {
                    order.push(next);
                }
            }
        }
        (order.len() == self.parents.len()).then_some(order)
    }
}

#[cfg(test)]
mod tests {
    use super::{Ancestry, Place};

    /// 1 ← 2 ← 3, 2 ← 4, and 5 settles 3 and 4; 6 stands alone.
    fn family() -> Ancestry<u8> {
        let states = [(1, [None, None]), (2, [Some(1), None]), (3, [Some(2), None]), (4, [Some(2), None])];
        Ancestry::of(states.into_iter().chain([(5, [Some(3), Some(4)]), (6, [None, None])]))
    }

    #[track_caller]
    fn check(head: u8, asides: &[u8], came: u8, expected: Place<u8>) {
        let found = family().place(Some(head), asides.iter().copied(), came);
        assert_eq!(found, expected, "head {head}, aside {asides:?}, came {came}");
    }

    #[test]
    fn places() {
        check(3, &[], 3, Place::Same);
        check(2, &[], 4, Place::Ahead);
        check(3, &[], 1, Place::Behind);
        check(3, &[], 4, Place::Apart);
        check(3, &[4], 4, Place::Aside(4));
        check(6, &[5], 4, Place::Aside(5));
        check(3, &[6], 4, Place::Apart);
        check(4, &[3], 5, Place::Ahead);
        check(5, &[], 4, Place::Behind);
        check(6, &[], 5, Place::Apart);
        assert_eq!(family().place(None, [], 1), Place::First, "no version here");
    }

    #[test]
    fn ends_are_stored_whole() {
        let ends: Vec<u8> = (1..=6).filter(|node| family().is_end(*node)).collect();
        assert_eq!(ends, [4, 5, 6], "4 was only settled, so no patch leads back to it");
    }

    #[test]
    fn in_order_or_not_at_all() {
        let order = family().in_order().unwrap_or_default();
        let at = |node| order.iter().position(|there| *there == node);
        assert_eq!(order.len(), 6, "each once: {order:?}");
        assert!(at(1) < at(2) && at(2) < at(3) && at(3) < at(5) && at(4) < at(5), "{order:?}");
        assert_eq!(Ancestry::of([(1, [Some(2), None]), (2, [Some(1), None])]).in_order(), None, "a ring");
        assert_eq!(Ancestry::of([(1, [Some(9), None])]).in_order(), None, "a parent that is not there");
        let same_twice = Ancestry::of([(1, [None, None]), (2, [Some(1), Some(1)])]);
        assert_eq!(same_twice.in_order(), Some(vec![1, 2]), "both parents the same");
    }
}
