import { it } from "vitest";
import { planWork } from "@/lib/domain/plan/plan-work";
it("bench", () => {
  let seed = 1; const rnd = () => { seed = (seed * 1664525 + 1013904223) >>> 0; return seed / 2 ** 32; };
  for (const [n, A, p, u] of [[16,16,0.2,2],[16,16,0.4,2],[16,12,0.3,3],[16,20,0.15,3],[16,16,0.6,1],[16,24,0.1,4],[16,16,0.2,1],[24,14,0.3,2],[30,14,0.2,2],[45,20,0.2,2]] as const) {
    const ts: number[] = []; let ex = 0; const gaps: string[] = [];
    for (let r = 0; r < 30; r++) {
      const accesses: any[] = Array.from({ length: A }, (_, i) => ({ key: `a${i}`, name: "", openMinutes: Math.floor(rnd()*20), closeMinutes: Math.floor(rnd()*20), needs: [], excludes: Array.from({ length: i }, (_, j) => `a${j}`).filter(() => rnd() < p), closingChecks: [], cautions: [], tools: [] }));
      const ops: any[] = Array.from({ length: n }, (_, i) => {
        const acc: string[] = [];
        for (let t = 0; t < 20 && acc.length < u; t++) { const k = Math.floor(rnd()*A); const a = accesses[k]; if (acc.every(o => o !== a.key && !a.excludes.includes(o) && !accesses.find(x=>x.key===o).excludes.includes(a.key))) acc.push(a.key); }
        return { key: `o${i}`, name: "", instruction: "", minutes: 1, grade: "", accesses: acc, after: [], parts: [], holdPoints: [], cautions: [], tools: [] };
      });
      const t = performance.now(); const plan = planWork(ops, accesses); ts.push(performance.now() - t); if (plan.exact) ex++; else gaps.push(`${plan.gapMinutes}/${plan.minutes}`);
    }
    ts.sort((a, b) => a - b);
    console.log(n, A, p, u, "median", ts[15]!.toFixed(1), "max", ts[29]!.toFixed(1), "exact", ex, gaps.slice(0,3).join(" "));
  }
});
