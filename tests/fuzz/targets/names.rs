//! Marks, names and cells as people type them.

use hilum::marks::fold;
use hilum::stock::names::{key, near, nearest};
use hilum::stock::near::Spellings;
use hilum::trays::cells::{Geometry, LONGEST, letters};
use hilum::web::code::symbol;

/// A mark, the code it is printed in, and a cell.
pub fn marks(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    let mark = fold(&text);
    assert_eq!(fold(&mark), mark, "a folded mark is its own key");
    assert!(mark.chars().all(char::is_alphanumeric), "{mark:?}");
    let symbol = (data.first() == Some(&b'/')).then(|| symbol(&text)).flatten();
    assert!(symbol.is_none_or(|s| (29..=185).contains(&s.side)));
    let sides = [data.len(), text.chars().count()].map(|n| n as i64 % LONGEST + 1);
    let tray = Geometry { rows: sides[0], cols: sides[1] };
    if let Some(cell) = tray.read(&text) {
        assert!((1..=tray.cells()).contains(&cell));
        assert_eq!(tray.read(&tray.name(cell)), Some(cell));
        assert_eq!(tray.words(&[cell]), tray.name(cell));
    }
    assert!(!letters(sides[1]).is_empty());
}

/// Two or more names, a line each.
pub fn names(data: &[u8]) {
    let text = String::from_utf8_lossy(data);
    let keys: Vec<String> = text.lines().map(key).collect();
    for name in &keys {
        assert_eq!(key(name), *name, "a key is its own key");
    }
    let Some((first, others)) = keys.split_first() else { return };
    let mut known = Spellings::default();
    for other in others {
        assert_eq!(near(first, other), near(other, first), "{first:?} {other:?}");
        known.add(other, other);
    }
    let found = nearest(first, others.iter().map(String::as_str).enumerate());
    assert!(found.len() <= 3 && known.nearest(first).len() <= 3);
}
