// @ts-check
// The library in workers of its own, so that nothing that is worked out stops the
// page: one for what is typed, one for what takes its time.

/** @typedef {[string, ...string[]]} Question */

/** Programs that are compiled already, by their names. @type {Map<string, WebAssembly.Module>} */
const compiled = new Map();

export class Desk {
	/** @param {string} program the file of the program that answers: planner.wasm answers soon, boardwrap.wasm everything */
	constructor(program) {
		this.program = program;
		/** @type {Map<number, {done: (answers: string[]) => void, lost: (why: Error) => void, told?: (p: any) => void}>} */
		this.waiting = new Map();
		this.count = 0;
		/** @type {Worker | undefined} */
		this.worker = undefined;
	}
	start() {
		const worker = new Worker(new URL("worker.js", import.meta.url), { type: "module" });
		worker.onmessage = ({ data }) => {
			if (data.module) { compiled.set(this.program, data.module); return; }
			const w = this.waiting.get(data.id);
			if (!w) return;
			if (data.progress) { w.told?.(data.progress); return; }
			this.waiting.delete(data.id);
			if (data.failed) w.lost(new Error(data.failed));
			else w.done(data.answers);
		};
		worker.onerror = (e) => this.stop(e.message || "the program could not be started, is there a network?");
		worker.postMessage({ program: this.program, module: compiled.get(this.program) });
		this.worker = worker;
		return worker;
	}
	/** Asks questions, all of which are answered together.
	 * @param {Question[]} questions
	 * @param {(progress: any) => void} [told]
	 * @returns {Promise<string[]>} */
	ask(questions, told) {
		const worker = this.worker ?? this.start();
		const id = ++this.count;
		return new Promise((done, lost) => {
			this.waiting.set(id, { done, lost, told });
			worker.postMessage({ id, questions });
		});
	}
	/** Ends whatever is under way; the next question starts afresh.
	 * @param {string} why */
	stop(why) {
		this.worker?.terminate();
		this.worker = undefined;
		for (const w of this.waiting.values()) w.lost(new Error(why));
		this.waiting.clear();
	}
}
