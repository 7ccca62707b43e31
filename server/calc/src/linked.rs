//! Which sources can be compared at all: the graph of growers and the sources they tried.
//! Two sources are comparable when a chain of shared growers links them.

use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// Growers and sources that hang together, each sorted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// Its growers.
    pub growers: Vec<String>,
    /// Its sources.
    pub sources: Vec<String>,
}

/// The graph: growers come first among the nodes, then sources, both sorted by name.
pub struct Links {
    names: Vec<String>,
    growers: usize,
    near: Vec<Vec<usize>>,
}

impl Links {
    /// From (grower, source) pairs, in any order and with repeats.
    pub fn new<'a>(tried: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        let edges: BTreeSet<(&str, &str)> = tried.into_iter().collect();
        let places = |names: BTreeSet<&'a str>, from: usize| -> BTreeMap<&'a str, usize> {
            names.into_iter().zip(from..).collect()
        };
        let grower_at = places(edges.iter().map(|e| e.0).collect(), 0);
        let source_at = places(edges.iter().map(|e| e.1).collect(), grower_at.len());
        let names: Vec<String> = grower_at.keys().chain(source_at.keys()).map(|n| (*n).to_owned()).collect();
        let mut near = vec![Vec::new(); names.len()];
        for (grower, source) in edges {
            near[grower_at[grower]].push(source_at[source]);
            near[source_at[source]].push(grower_at[grower]);
        }
        Self { names, growers: grower_at.len(), near }
    }

    /// All sources, sorted.
    pub fn sources(&self) -> &[String] {
        &self.names[self.growers..]
    }

    /// The groups, sorted by their sorted lists of sources.
    pub fn groups(&self) -> Vec<Group> {
        let mut seen = vec![false; self.names.len()];
        let mut groups = Vec::new();
        for start in self.growers..self.names.len() {
            if seen[start] {
                continue;
            }
            let members: BTreeSet<usize> = self.distances(start).into_iter().map(|(node, _)| node).collect();
            members.iter().for_each(|node| seen[*node] = true);
            let named =
                |nodes: &mut dyn Iterator<Item = &usize>| nodes.map(|n| self.names[*n].clone()).collect();
            groups.push(Group {
                growers: named(&mut members.range(..self.growers)),
                sources: named(&mut members.range(self.growers..)),
            });
        }
        groups
    }

    /// Every source reachable from source number `from` with its steps: 1 shares a grower, 2 has one
    /// source in between. By source number; `None` is not linked.
    pub fn steps(&self, from: usize) -> Vec<Option<usize>> {
        let mut steps = vec![None; self.names.len() - self.growers];
        for (node, distance) in self.distances(self.growers + from) {
            if node >= self.growers {
                steps[node - self.growers] = Some(distance / 2);
            }
        }
        steps
    }

    /// How many growers tried both sources.
    pub fn shared_growers(&self, a: usize, b: usize) -> usize {
        let (one, two) = (&self.near[self.growers + a], &self.near[self.growers + b]);
        one.iter().filter(|grower| two.binary_search(grower).is_ok()).count()
    }

    fn distances(&self, start: usize) -> Vec<(usize, usize)> {
        let mut seen = vec![false; self.names.len()];
        seen[start] = true;
        let mut waiting = VecDeque::from([(start, 0)]);
        let mut reached = Vec::new();
        while let Some((node, distance)) = waiting.pop_front() {
            reached.push((node, distance));
            for &next in &self.near[node] {
                if !std::mem::replace(&mut seen[next], true) {
                    waiting.push_back((next, distance + 1));
                }
            }
        }
        reached
    }

    /// Growers without whom a group falls apart (leaving a source alone counts), sorted.
    pub fn linking_growers(&self) -> Vec<String> {
        let mut search = Search::new(self);
        for root in 0..self.names.len() {
            search.from(root);
        }
        (0..self.growers).filter(|node| search.cuts[*node]).map(|node| self.names[node].clone()).collect()
    }
}

/// Cut vertices by depth-first search (Hopcroft and Tarjan 1973), with its own stack: the depth is that
/// of the data.
struct Search<'a> {
    links: &'a Links,
    order: Vec<Option<usize>>,
    lowest: Vec<usize>,
    cuts: Vec<bool>,
    count: usize,
}

impl<'a> Search<'a> {
    fn new(links: &'a Links) -> Self {
        let n = links.names.len();
        Self { links, order: vec![None; n], lowest: vec![0; n], cuts: vec![false; n], count: 0 }
    }

    fn enter(&mut self, node: usize) {
        self.order[node] = Some(self.count);
        self.lowest[node] = self.count;
        self.count += 1;
    }

    fn from(&mut self, root: usize) {
        if self.order[root].is_some() {
            return;
        }
        self.enter(root);
        let mut branches = 0;
        let mut path = vec![(root, 0)];
        while let Some((node, next)) = path.last_mut() {
            let node = *node;
            if let Some(&near) = self.links.near[node].get(*next) {
                *next += 1;
                if let Some(order) = self.order[near] {
                    self.lowest[node] = self.lowest[node].min(order);
                } else {
                    self.enter(near);
                    path.push((near, 0));
                }
            } else {
                path.pop();
                if let Some((parent, _)) = path.last() {
                    branches += usize::from(*parent == root);
                    self.leave(node, *parent, root);
                }
            }
        }
        self.cuts[root] = branches > 1;
    }

    fn leave(&mut self, node: usize, parent: usize, root: usize) {
        self.lowest[parent] = self.lowest[parent].min(self.lowest[node]);
        if parent != root && Some(self.lowest[node]) >= self.order[parent] {
            self.cuts[parent] = true;
        }
    }
}
