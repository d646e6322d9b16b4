//! Where plans are found and new ones are put: handed in, so that no folder is known here.

use crate::Shelf;

/// A plan that can be opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// The name by which it is opened.
    pub name: String,
    /// What its work is called, if that can be read.
    pub title: Option<String>,
}

/// The plans that can be opened.
pub trait Cabinet: Send + Sync {
    /// What is there.
    fn plans(&self) -> Vec<Found>;
    /// One of those, by its name; none that is not there.
    fn open(&self, name: &str) -> Option<Box<dyn Shelf>>;
    /// Whether new ones can be put there.
    fn takes_new(&self) -> bool;
    /// Puts a new plan there, named after its title; gives its name.
    ///
    /// # Errors
    /// If it can't be written.
    fn create(&self, title: &str, text: &str) -> Result<String, String>;
}
