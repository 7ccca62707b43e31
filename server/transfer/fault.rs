use super::columns;

/// What is wrong where. Lines count from 1, the line of the headings included.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    pub line: u64,
    pub column: String,
    pub message: String,
}

impl Fault {
    pub fn new(line: u64, column: &str, message: impl Into<String>) -> Self {
        Self { line, column: column.to_owned(), message: message.into() }
    }

    /// The same with the cell that is meant, where only a number would do: `"a few" is not a number.`
    pub fn of_cell(line: u64, column: &str, cell: &str, message: &str) -> Self {
        if [t!("web-whole"), t!("web-year"), t!("web-number")].contains(&message) && !cell.is_empty() {
            let message = t!("transfer-not-a-number", cell = shortened(cell), please = message);
            return Self::new(line, column, message);
        }
        Self::new(line, column, message)
    }

    /// What people call its column.
    pub fn column_words(&self) -> &str {
        columns::words(&self.column)
    }
}

/// The start of a cell.
pub fn shortened(cell: &str) -> String {
    cell.trim().chars().take(30).collect()
}
