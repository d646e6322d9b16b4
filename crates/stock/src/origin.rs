//! Where a row comes from: the citation a user sees, and how it came to be known.

use finding::Basis;

/// The source of a row and how far to trust it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Origin {
    /// Short citation, as it stands in reports: "ISO 6722-1:2011".
    pub source: String,
    /// How the value came to be known.
    pub basis: Basis,
}

impl Origin {
    /// The origin of what a user's own table holds, unless a row there says otherwise.
    pub(crate) fn user() -> Self {
        Self {
            source: "the user's own table".to_owned(),
            basis: Basis::User,
        }
    }
}

impl std::fmt::Display for Origin {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} ({})", self.source, self.basis)
    }
}
