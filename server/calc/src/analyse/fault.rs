use std::fmt;

/// What is wrong with a file, and where.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Line of the file, the header is line 1.
    pub line: u64,
    /// Name of the column.
    pub column: String,
    /// The fault in plain words.
    pub error: String,
}

impl Fault {
    /// A fault of `column` on `line`.
    pub fn new(line: u64, column: &str, error: impl Into<String>) -> Self {
        Self { line, column: column.to_owned(), error: error.into() }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}, column {}: {}", self.line, self.column, self.error)
    }
}
