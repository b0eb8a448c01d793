//! Puts functions that look alike beside each other, so that the compressed page is smaller.
//!
//! A compiler writes much the same code again for every type, and gzip finds a repetition only
//! within the last 32 kB. What the program does is unchanged; only the numbers of its functions are.

use anyhow::Result;
use std::collections::BTreeMap;
use std::convert::Infallible;
use std::fs;
use wasm_encoder::reencode::{Error, Reencode, utils};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{CodeSectionReader, FunctionSectionReader, Parser, Payload, TypeRef};

/// Bytes whose sequence is compared.
const SHINGLE: usize = 6;
/// Sequences kept of each function: those with the smallest hashes, a fair sample.
const SAMPLE: usize = 48;
/// Sequences that so many functions have say nothing.
const COMMON: usize = 400;
/// How many of the functions placed last the next one is compared with.
const LOOK_BACK: usize = 3;

/// Reorders the functions of a program on disk.
pub fn by_likeness(program: &str) -> Result<()> {
    let wasm = fs::read(program)?;
    let mut imported = 0;
    let mut bodies = Vec::new();
    for payload in Parser::new(0).parse_all(&wasm) {
        match payload? {
            Payload::ImportSection(imports) => {
                for import in imports.into_imports() {
                    imported += u32::from(matches!(import?.ty, TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => bodies.push(&wasm[body.range()]),
            _ => {}
        }
    }
    let mut order = Order::new(imported, chain(&bodies));
    let mut module = Module::new();
    order.parse_core_module(&mut module, Parser::new(0), &wasm)?;
    fs::write(program, module.finish())?;
    Ok(())
}

/// Old places of the functions in their new order, and the way back.
struct Order {
    imported: u32,
    old: Vec<usize>,
    new: Vec<u32>,
}

impl Order {
    fn new(imported: u32, old: Vec<usize>) -> Self {
        let mut new = vec![0; old.len()];
        for (place, from) in (0..).zip(&old) {
            new[*from] = place;
        }
        Self { imported, old, new }
    }
}

impl Reencode for Order {
    type Error = Infallible;

    fn function_index(&mut self, index: u32) -> Result<u32, Error<Infallible>> {
        let own = index.checked_sub(self.imported);
        Ok(own.map_or(index, |own| self.imported + self.new[own as usize]))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let types: Vec<u32> = section.into_iter().collect::<Result<_, _>>()?;
        for from in self.old.clone() {
            functions.function(self.type_index(types[from])?);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let bodies: Vec<_> = section.into_iter().collect::<Result<_, _>>()?;
        for from in self.old.clone() {
            utils::parse_function_body(self, code, bodies[from].clone())?;
        }
        Ok(())
    }
}

/// Starts with the largest function, and goes on with the one that shares most with the last few.
fn chain(bodies: &[&[u8]]) -> Vec<usize> {
    let samples: Vec<Vec<u64>> = bodies.iter().map(|body| sample(body)).collect();
    let mut holders: BTreeMap<u64, Vec<usize>> = BTreeMap::new();
    for (index, hash) in (0..)
        .zip(&samples)
        .flat_map(|(i, s)| s.iter().map(move |h| (i, *h)))
    {
        holders.entry(hash).or_default().push(index);
    }
    let mut largest: Vec<usize> = (0..bodies.len()).collect();
    largest.sort_by_key(|index| (bodies[*index].len(), *index));
    let mut placed = vec![false; bodies.len()];
    let mut order: Vec<usize> = Vec::with_capacity(bodies.len());
    while order.len() < bodies.len() {
        let mut shared: BTreeMap<usize, usize> = BTreeMap::new();
        for hash in order
            .iter()
            .rev()
            .take(LOOK_BACK)
            .flat_map(|last| &samples[*last])
        {
            let holders = holders.get(hash).filter(|holders| holders.len() < COMMON);
            for index in holders
                .into_iter()
                .flatten()
                .filter(|index| !placed[**index])
            {
                *shared.entry(*index).or_default() += 1;
            }
        }
        // The largest share of what it has itself; of equals the first.
        let likeness = |index: usize, count: usize| {
            count as f64
                / (2 * SAMPLE + samples[index].len() - count.min(samples[index].len())) as f64
        };
        let next = shared
            .into_iter()
            .max_by(|a, b| {
                let (one, other) = (likeness(a.0, a.1), likeness(b.0, b.1));
                one.total_cmp(&other).then(b.0.cmp(&a.0))
            })
            .map(|(index, _)| index);
        let fresh = || std::iter::from_fn(|| largest.pop()).find(|index| !placed[*index]);
        let Some(next) = next.or_else(fresh) else {
            break;
        };
        placed[next] = true;
        order.push(next);
    }
    order
}

fn sample(body: &[u8]) -> Vec<u64> {
    let mut hashes: Vec<u64> = body.windows(SHINGLE).map(hash).collect();
    hashes.sort_unstable();
    hashes.dedup();
    hashes.truncate(SAMPLE);
    hashes
}

/// Fowler, Noll, Vo: small, and the same everywhere. Mixed once more, since the smallest are kept.
fn hash(bytes: &[u8]) -> u64 {
    let start = 0xcbf2_9ce4_8422_2325_u64;
    let hash = bytes.iter().fold(start, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    });
    (hash ^ (hash >> 29)).wrapping_mul(0x9e37_79b9_7f4a_7c15)
}
