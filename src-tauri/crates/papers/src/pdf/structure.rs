//! Writes the logical structure: a tree of elements, and the way back from each piece of a page to
//! its element. Straight to bytes: a paper has some hundred elements, all of them alike.

use std::io::{self, Write};

use lopdf::{Document as File, Object, ObjectId, dictionary};

use super::PdfError;
use super::finish::text;
use super::save::{Written, write_object};
use super::tags::{Element, Numbering, Role, Tag, Tags};

/// Holds one paper of a file as its structure sees it.
pub(super) struct Structured {
    pub tags: Tags,
    pub language: String,
    pub title: String,
    /// What each page shows, in order.
    pub pages: Vec<Marked>,
}

/// Holds what a page shows of the structure.
#[derive(Debug, Default)]
pub(super) struct Marked {
    /// The element of each marked piece; the place in the list is the piece's number on the page.
    pub pieces: Vec<Tag>,
    /// Where drawings stand: left, bottom, right and top in the file's points.
    pub bounds: Vec<(Tag, [f32; 4])>,
}

/// Adds the structure of all papers, whose pages follow each other in `pages`.
pub(super) fn write(file: &mut File, pages: &[ObjectId], papers: &[Structured]) -> Result<Written, PdfError> {
    let mut out = Written::default();
    let (root, back) = (file.new_object_id().0, file.new_object_id().0);
    // Readers look for one document at the top.
    let whole = if papers.len() == 1 { None } else { Some(file.new_object_id().0) };
    let mut firsts = Vec::with_capacity(papers.len());
    let mut parents = b"<</Nums[".to_vec();
    let (mut rest, mut number) = (pages, 0);
    for paper in papers {
        let (own, after) = rest.split_at(paper.pages.len().min(rest.len()));
        rest = after;
        let first = file.max_id + 1;
        file.max_id += paper.tags.elements().len() as u32;
        firsts.push(first);
        for (page, marked) in own.iter().zip(&paper.pages) {
            let dictionary = file.get_dictionary_mut(*page)?;
            dictionary.set("StructParents", number);
            dictionary.set("Tabs", "S");
            write!(parents, "{number}[")?;
            for tag in &marked.pieces {
                write!(parents, "{} 0 R ", tag.number(first))?;
            }
            parents.push(b']');
            number += 1;
        }
        elements(&mut out, paper, own, first, whole.unwrap_or(root), whole.is_some())?;
    }
    parents.extend_from_slice(b"]>>");
    out.object(back).extend_from_slice(&parents);
    if let Some(whole) = whole {
        let out = out.object(whole);
        write!(out, "<</Type/StructElem/S/Document/P {root} 0 R/K[")?;
        for first in firsts.drain(..) {
            write!(out, "{first} 0 R ")?;
        }
        out.extend_from_slice(b"]>>");
        firsts.push(whole);
    }
    let top = firsts.first().copied().unwrap_or(root);
    write!(out.object(root), "<</Type/StructTreeRoot/K[{top} 0 R]/ParentTree {back} 0 R/ParentTreeNextKey {number}>>")?;
    let catalog = file.catalog_mut()?;
    catalog.set("StructTreeRoot", Object::Reference((root, 0)));
    catalog.set("MarkInfo", dictionary! { "Marked" => true });
    Ok(out)
}

/// Writes one paper's elements, numbered from `first`, which hangs below `above`.
fn elements(
    out: &mut Written,
    paper: &Structured,
    pages: &[ObjectId],
    first: u32,
    above: u32,
    part: bool,
) -> io::Result<()> {
    let elements = paper.tags.elements();
    let (pieces, bounds) = shown(paper);
    for (n, element) in elements.iter().enumerate() {
        let parent = match element.parent {
            Some(tag) => tag.number(first),
            None if n == 0 => above,
            // It never got a place: there was nothing to read.
            None => continue,
        };
        let role = if n == 0 && part { Role::Part } else { element.role };
        let out = out.object(first + n as u32);
        write!(out, "<</Type/StructElem/S/{}/P {parent} 0 R", role.name())?;
        kids(out, element, &pieces[n], pages, first)?;
        if n == 0 {
            out.extend_from_slice(b"/Lang");
            write_object(out, &text(&paper.language))?;
            out.extend_from_slice(b"/T");
            write_object(out, &text(&paper.title))?;
        }
        if let Some(alt) = &element.alt {
            out.extend_from_slice(b"/Alt");
            write_object(out, &text(alt))?;
        }
        attributes(out, element.role, bounds[n])?;
        out.extend_from_slice(b">>");
    }
    Ok(())
}

/// Where an element's pieces are: page of the paper, number on the page.
type Pieces = Vec<(usize, usize)>;

/// Turns what the pages show around: for each element its pieces, and where a drawing stands.
fn shown(paper: &Structured) -> (Vec<Pieces>, Vec<Option<[f32; 4]>>) {
    let count = paper.tags.elements().len();
    let (mut pieces, mut bounds) = (vec![Pieces::new(); count], vec![None; count]);
    for (page, marked) in paper.pages.iter().enumerate() {
        for (number, tag) in marked.pieces.iter().enumerate() {
            if let Some(pieces) = pieces.get_mut(tag.place()) {
                pieces.push((page, number));
            }
        }
        for (tag, edges) in &marked.bounds {
            if let Some(bounds) = bounds.get_mut(tag.place()) {
                *bounds = Some(*edges);
            }
        }
    }
    (pieces, bounds)
}

/// Writes what an element holds: other elements, or pieces of pages.
fn kids(
    out: &mut Vec<u8>,
    element: &Element,
    pieces: &[(usize, usize)],
    pages: &[ObjectId],
    first: u32,
) -> io::Result<()> {
    let home = pieces.first().map(|(page, _)| *page);
    if let Some((page, _)) = home.and_then(|page| pages.get(page)) {
        write!(out, "/Pg {page} 0 R")?;
    }
    if element.kids.is_empty() && pieces.is_empty() {
        return Ok(());
    }
    out.extend_from_slice(b"/K[");
    for tag in &element.kids {
        write!(out, "{} 0 R ", tag.number(first))?;
    }
    for (page, number) in pieces {
        match pages.get(*page) {
            // A piece on the element's own page is its number alone.
            Some((id, _)) if home != Some(*page) => write!(out, "<</Type/MCR/Pg {id} 0 R/MCID {number}>>")?,
            _ => write!(out, "{number} ")?,
        }
    }
    out.push(b']');
    Ok(())
}

fn attributes(out: &mut Vec<u8>, role: Role, bounds: Option<[f32; 4]>) -> io::Result<()> {
    let (owner, key, value) = match role {
        Role::List(Numbering::Numbers) => ("List", "ListNumbering", "Decimal"),
        Role::List(Numbering::Discs) => ("List", "ListNumbering", "Disc"),
        // The format has no name for a dash.
        Role::List(Numbering::Dashes) => ("List", "ListNumbering", "None"),
        Role::ColumnHeader => ("Table", "Scope", "Column"),
        Role::RowHeader => ("Table", "Scope", "Row"),
        _ => {
            if let (Role::Figure, Some([left, bottom, right, top])) = (role, bounds) {
                write!(out, "/A<</O/Layout/Placement/Block/BBox[{left} {bottom} {right} {top}]>>")?;
            }
            return Ok(());
        }
    };
    write!(out, "/A<</O/{owner}/{key}/{value}>>")
}
