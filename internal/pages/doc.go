// Package pages tests the documents of boardwrap.example/folio/guide with the
// tools of others: a validator of HTML, a reader of Markdown, a browser that
// prints, and a reader of what it printed. It is a module of its own, so that the
// library needs none of them. What the machine lacks is skipped, with the reason.
//
// The validator, the Nu Html Checker, comes with npm and runs in Java:
//
//	npm ci --ignore-scripts
//
// The browser is Chromium, named by CHROMIUM or in the path; what it printed is
// read by pdftotext and pdfinfo of Poppler.
package pages
