// @ts-check
// Answers questions away from the page.
import { compile, open } from "./boardwrap.js";

/** @type {Promise<import("./boardwrap.js").Boardwrap> | undefined} */
let library;

let program = "";

/** @param {WebAssembly.Module | undefined} module */
async function start(module) {
	if (!module) {
		module = await compile(new URL(program, import.meta.url));
		postMessage({ module });
	}
	return open(module);
}

onmessage = async ({ data }) => {
	if (!("id" in data)) {
		program = data.program;
		library = start(data.module);
		library.catch(() => {}); // whoever asks is told
		return;
	}
	try {
		if (!library) throw new Error("not started");
		let asked = await library;
		if (!asked.alive) asked = await (library = open(new URL(program, import.meta.url)));
		const told = (/** @type {string} */ text) => postMessage({ id: data.id, progress: JSON.parse(text) });
		const answers = data.questions.map(([name, ...texts]) => asked[name](...texts, told));
		postMessage({ id: data.id, answers });
	} catch (why) {
		postMessage({ id: data.id, failed: String(why) });
	}
};
