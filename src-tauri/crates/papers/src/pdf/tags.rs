//! The logical structure of one paper: which element each piece of the pages belongs to.
//!
//! It is built with the pieces, from the same blocks, and knows no page and no file; `structure`
//! writes it. Invariants: an element that pieces point at has no elements below it, and elements
//! stand in the order in which they are to be read.

/// Names an element of one paper's structure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct Tag(u32);

/// Says what an element is; all of them are standard types of PDF 1.7.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Role {
    /// A paper that is a file of its own.
    Document,
    /// One of several papers in a file.
    Part,
    /// Depth among the headings, 1 to 6.
    Heading(u8),
    Paragraph,
    List(Numbering),
    Item,
    /// An item's bullet or number.
    Label,
    /// What an item says.
    Body,
    Table,
    HeaderRows,
    Rows,
    Row,
    /// A cell that names its column.
    ColumnHeader,
    /// A cell that names its row.
    RowHeader,
    Cell,
    /// A box.
    Section,
    Figure,
}

impl Role {
    /// Returns the name that the format gives it.
    pub(super) fn name(self) -> &'static str {
        match self {
            Self::Document => "Document",
            Self::Part => "Part",
            Self::Heading(level) => ["H1", "H2", "H3", "H4", "H5", "H6"][usize::from(level.clamp(1, 6) - 1)],
            Self::Paragraph => "P",
            Self::List(_) => "L",
            Self::Item => "LI",
            Self::Label => "Lbl",
            Self::Body => "LBody",
            Self::Table => "Table",
            Self::HeaderRows => "THead",
            Self::Rows => "TBody",
            Self::Row => "TR",
            Self::ColumnHeader | Self::RowHeader => "TH",
            Self::Cell => "TD",
            Self::Section => "Sect",
            Self::Figure => "Figure",
        }
    }
}

/// Names how a list's items are marked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Numbering {
    Numbers,
    Discs,
    Dashes,
}

/// Holds one element.
#[derive(Debug)]
pub(super) struct Element {
    pub role: Role,
    pub parent: Option<Tag>,
    pub kids: Vec<Tag>,
    /// What a drawing says in words.
    pub alt: Option<String>,
}

/// Holds the elements of one paper; the first is the paper itself.
#[derive(Debug)]
pub(super) struct Tags {
    elements: Vec<Element>,
    /// Elements that are not complete yet, outermost first.
    open: Vec<Tag>,
    /// Levels of the headings above the present place, as the template wrote them.
    levels: Vec<u8>,
}

impl Default for Tags {
    fn default() -> Self {
        let paper = Element { role: Role::Document, parent: None, kids: Vec::new(), alt: None };
        Self { elements: vec![paper], open: vec![Tag(0)], levels: Vec::new() }
    }
}

impl Tags {
    /// Begins an element that holds others, up to [`Tags::end`].
    pub(super) fn begin(&mut self, role: Role) {
        let tag = self.leaf(role);
        self.open.push(tag);
    }

    /// Ends the element begun last; the paper itself stays open.
    pub(super) fn end(&mut self) {
        if self.open.len() > 1 {
            self.open.pop();
        }
    }

    /// Adds an element that pieces point at.
    pub(super) fn leaf(&mut self, role: Role) -> Tag {
        let tag = self.loose(role);
        self.attach(tag);
        tag
    }

    /// Adds a heading. Its depth is one more than that of the heading that it stands under, so that
    /// no level is left out, whatever the template says.
    pub(super) fn heading(&mut self, level: u8) -> Tag {
        while self.levels.last().is_some_and(|above| *above >= level) {
            self.levels.pop();
        }
        self.levels.push(level);
        self.leaf(Role::Heading(self.levels.len().min(6) as u8))
    }

    /// Adds a drawing; one without words is decoration and no element.
    pub(super) fn figure(&mut self, alt: &str) -> Option<Tag> {
        if alt.trim().is_empty() {
            return None;
        }
        let tag = self.leaf(Role::Figure);
        if let Some(element) = self.elements.get_mut(tag.0 as usize) {
            element.alt = Some(alt.to_owned());
        }
        Some(tag)
    }

    /// Adds an element without a place; [`Tags::attach`] gives it one.
    pub(super) fn loose(&mut self, role: Role) -> Tag {
        let tag = Tag(self.elements.len() as u32);
        self.elements.push(Element { role, parent: None, kids: Vec::new(), alt: None });
        tag
    }

    /// Puts an element behind everything that the present one holds.
    pub(super) fn attach(&mut self, tag: Tag) {
        let parent = self.open.last().copied().unwrap_or(Tag(0));
        if let Some(element) = self.elements.get_mut(tag.0 as usize) {
            element.parent = Some(parent);
        }
        if let Some(element) = self.elements.get_mut(parent.0 as usize) {
            element.kids.push(tag);
        }
    }

    /// Tells whether the element is a heading.
    pub(super) fn is_heading(&self, tag: Tag) -> bool {
        matches!(self.role(tag), Some(Role::Heading(_)))
    }

    pub(super) fn role(&self, tag: Tag) -> Option<Role> {
        self.elements.get(tag.0 as usize).map(|element| element.role)
    }

    /// Returns the elements; a tag is the place in this list.
    pub(super) fn elements(&self) -> &[Element] {
        &self.elements
    }
}

impl Tag {
    /// Returns the place among [`Tags::elements`].
    pub(super) fn place(self) -> usize {
        self.0 as usize
    }

    /// Returns the number in a file whose objects have the elements from `first` on.
    pub(super) fn number(self, first: u32) -> u32 {
        first + self.0
    }
}
