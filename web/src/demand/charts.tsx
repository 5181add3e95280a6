// SPDX-License-Identifier: MIT
// The day's draw by the hour, and the chance of running short by heaters.

import uPlot from 'uplot';
import type { Demand } from '../api/types';
import { words } from '../words';
import { Curve, type Inks } from './curve';

const text = words.demand;

const axis = (inks: Inks, label: string, more: Partial<uPlot.Axis> = {}): uPlot.Axis => ({
    stroke: inks.soft,
    grid: { stroke: inks.rule, width: 1 },
    ticks: { stroke: inks.rule, width: 1, size: 4 },
    font: '12px sans-serif',
    labelFont: '12px sans-serif',
    label,
    labelSize: 18,
    size: 34,
    ...more,
});

export function Day({ day }: { day: NonNullable<Demand['day']> }) {
    const hours = day.hours.map((_, hour) => hour);
    return (
        <Curve
            name={text.patternName(`${day.busiest}:00`)}
            data={[hours, day.hours]}
            options={(inks) => ({
                legend: { show: false },
                cursor: { show: false },
                scales: { x: { time: false, range: [-0.6, 23.6] }, y: { range: (_u, _low, high) => [0, high * 1.08] } },
                axes: [axis(inks, text.hour, { values: (_u, v) => v.map((h) => `${h}`) }), axis(inks, day.unit, { size: 46 })],
                series: [{}, { stroke: inks.accent, fill: inks.fill, width: 1, paths: uPlot.paths.bars!({ size: [0.72, 40] }), points: { show: false } }],
            })}
        />
    );
}

export function Risk({ risk, installed }: { risk: Demand['risk']; installed: number | undefined }) {
    const heaters = risk.map((one) => one.heaters);
    // a logarithmic axis has no nought: what is never short in the reckoning lies on its floor
    const floor = 1e-6;
    const chance = risk.map((one) => Math.max(floor, one.chance));
    return (
        <Curve
            name={text.riskName}
            data={[heaters, chance]}
            options={(inks) => ({
                legend: { show: false },
                cursor: { show: false },
                scales: { x: { time: false, range: (_u, low, high) => [low - 0.4, high + 0.4] }, y: { distr: 3, log: 10, range: [floor, 1] } },
                axes: [
                    axis(inks, text.heaters, { incrs: [1, 2, 5, 10] }),
                    axis(inks, '', { size: 76, labelSize: 0, splits: [1e-6, 1e-4, 1e-2, 1], filter: (_u, splits) => splits, values: ['≤ 0.0001 %', '0.01 %', '1 %', '100 %'] }),
                ],
                series: [{}, { stroke: inks.accent, width: 1.5, points: { show: true, size: 6, stroke: inks.accent, fill: inks.fill } }],
                hooks: {
                    draw: [
                        (u) => {
                            if (installed === undefined) return;
                            const x = u.valToPos(installed, 'x', true);
                            u.ctx.save();
                            u.ctx.strokeStyle = inks.ink;
                            u.ctx.setLineDash([5, 4]);
                            u.ctx.beginPath();
                            u.ctx.moveTo(x, u.bbox.top);
                            u.ctx.lineTo(x, u.bbox.top + u.bbox.height);
                            u.ctx.stroke();
                            u.ctx.fillStyle = inks.ink;
                            u.ctx.font = `${12 * devicePixelRatio}px sans-serif`;
                            u.ctx.textAlign = 'right';
                            u.ctx.fillText(text.installed(installed), x - 5 * devicePixelRatio, u.bbox.top + 14 * devicePixelRatio);
                            u.ctx.restore();
                        },
                    ],
                },
            })}
        />
    );
}
