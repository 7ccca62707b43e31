//! Which part of the manual tells of a page.

/// Addresses that start and end so, and where to read; of several that fit, the longest start counts, then the longest end.
pub const PARTS: &[(&str, &str, &str)] = &[
    ("/", "", "/help"),
    ("/looks", "", "/help/looks#all-bags-in-one-screen"),
    ("/bags", "", "/help/looks#one-bag"),
    ("/bags", "/close", "/help/looks#giving-up"),
    ("/bags", "/plant", "/help/packet#into-the-tray"),
    ("/bags", "/happened", "/help/looks#something-happened"),
    ("/bags", "/elsewhere", "/help/looks#something-happened"),
    ("/bags/unknown", "", "/help/labels#a-label-is-gone"),
    ("/entries", "", "/help/looks#a-mistake"),
    ("/holders", "", "/help/looks#several-papers-in-one-bag"),
    ("/packets", "", "/help/packet#the-packet"),
    ("/packets/import", "", "/help/files#a-seasons-list"),
    ("/packets/ageing", "", "/help/plan#seed-that-ages"),
    ("/packets/letters", "", "/help/labels#marks"),
    ("/counts/import", "", "/help/files#counts-from-a-spreadsheet"),
    ("/clubs", "", "/help/files#another-clubs-table"),
    ("/trials", "", "/help/packet#the-soak"),
    ("/trials", "/tally", "/help/packet#the-float-tally"),
    ("/trials", "/paper", "/help/packet#onto-damp-paper"),
    ("/routines", "", "/help/packet#the-routine"),
    ("/mix", "", "/help/packet#mixing"),
    ("/calculators", "", "/help/plan"),
    ("/plan", "", "/help/plan#a-plan-for-the-season"),
    ("/trays", "", "/help/packet#into-the-tray"),
    ("/plantings", "", "/help/packet#what-came-up"),
    ("/labels", "", "/help/labels#printing-labels"),
    ("/cards", "", "/help/labels#count-cards"),
    ("/table", "", "/help/table"),
    ("/floaters", "", "/help/table#what-helps"),
    ("/rings", "", "/help/rings"),
    ("/members", "", "/help/members"),
    ("/backups", "", "/help/backups"),
    ("/me", "", "/help/start#your-own-page"),
    ("/phone", "", "/help/signal"),
    ("/outbox", "", "/help/signal#what-waits"),
    ("/kinds", "", "/help/methods#the-standard-day"),
    ("/varieties", "", "/help/files#two-spellings-of-one-name"),
    ("/sources", "", "/help/files#two-spellings-of-one-name"),
    ("/api", "", "/help/files#your-own-programs"),
];

/// Where to read of the page at `path`.
pub fn of(path: &str) -> &'static str {
    if path == "/" {
        return "/help/looks";
    }
    let under = |start: &str| start == "/" || path == start || path.starts_with(&format!("{start}/"));
    let fits = PARTS.iter().filter(|(start, end, _)| under(start) && path.ends_with(end));
    fits.max_by_key(|(start, end, _)| (start.len(), end.len())).map_or("/help", |part| part.2)
}

#[cfg(test)]
mod tests {
    use super::of;

    #[test]
    fn the_nearest_part_is_told() {
        assert_eq!(of("/"), "/help/looks");
        assert_eq!(of("/bags/0195"), "/help/looks#one-bag");
        assert_eq!(of("/bags/0195/close"), "/help/looks#giving-up");
        assert_eq!(of("/bags/unknown"), "/help/labels#a-label-is-gone");
        assert_eq!(of("/mixture"), "/help");
    }
}
