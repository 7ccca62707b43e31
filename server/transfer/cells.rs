//! Text cells that a spreadsheet would take for a formula carry an apostrophe, which goes away on the way back.

const RISKY: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\''];

/// The cell as written to a file.
pub fn guarded(text: &str) -> String {
    if text.starts_with(RISKY) { format!("'{text}") } else { text.to_owned() }
}

/// The cell as it was before [`guarded`].
pub fn plain(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if rest.starts_with(RISKY) => rest,
        _ => cell,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn guarded_cells_come_back_as_they_were() {
        for text in ["=1+1", "+x", "-x", "@x", "\tx", "'quoted", "'=x", "''", "plain", ""] {
            let written = guarded(text);
            assert!(!written.starts_with(['=', '+', '-', '@', '\t', '\r']), "{written}");
            assert_eq!(plain(&written), text);
        }
        assert_eq!(plain("'quoted"), "'quoted");
    }
}
