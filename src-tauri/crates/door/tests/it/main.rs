//! The door: who opens it, and that SQLite finds the pages behind it.

mod pages;
