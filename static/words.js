// What the scripts say. self.WORDS, the messages of the page's language, stands before this text.
self.words = (id, values = {}) => (WORDS[id] ?? id).replace(/\{(\w+)\}/g, (_, name) => values[name] ?? '');
// Of "counts-one" and "counts-other" the one for so many.
self.counted = (id, n) => words(`${id}-${new Intl.PluralRules(words('locale')).select(n)}`, { n });
