// Keeps the page's own files, so that it works without a network after the first
// visit. The builder writes the version and the names of the files above.
const kept = "folio-" + version;

addEventListener("install", (e) => {
	e.waitUntil(
		caches.open(kept)
			.then((cache) => cache.addAll(names.map((name) => new Request(name, { cache: "reload" }))))
			.then(() => skipWaiting()),
	);
});

addEventListener("activate", (e) => {
	e.waitUntil(
		caches.keys()
			.then((all) => Promise.all(all.filter((name) => name.startsWith("folio-") && name !== kept).map((name) => caches.delete(name))))
			.then(() => clients.claim()),
	);
});

// Own files come from what is kept, all of one version; nothing else is fetched.
addEventListener("fetch", (e) => {
	if (e.request.method !== "GET" || new URL(e.request.url).origin !== location.origin) return;
	e.respondWith(
		caches.open(kept)
			.then((cache) => cache.match(e.request, { ignoreSearch: true }).then((hit) => hit ?? (e.request.mode === "navigate" ? cache.match("index.html") : undefined)))
			.then((hit) => hit ?? fetch(e.request)),
	);
});
