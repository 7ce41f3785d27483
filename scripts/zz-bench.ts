import { createAnalyser } from '../language/analysis.ts';
import { exampleHost } from '../tests/support/read-layout.ts';
import { drawElevation } from '../language/domain/drawing/elevation.ts';
import { drawPlan } from '../language/domain/drawing/plan.ts';
import { sceneToSvg } from '../language/domain/drawing/svg.ts';
const a=createAnalyser(exampleHost as any).analyse('maple-designed.sill') as any;
const {layout,checked,basis}=a; const F=layout.walls.find((w:any)=>w.name==='F');
for (let i=0;i<30;i++){ const t0=performance.now(); const s=drawElevation({layout,checked,basis,wall:F}); const t1=performance.now(); sceneToSvg(s,{colours:'screen'}); const t2=performance.now(); const p=drawPlan({layout,checked,basis}); const t3=performance.now(); sceneToSvg(p,{colours:'screen'}); const t4=performance.now(); if(i%6===5) console.log('elev',(t1-t0).toFixed(1),'svg',(t2-t1).toFixed(1),'plan',(t3-t2).toFixed(1),'svg',(t4-t3).toFixed(1)); }
