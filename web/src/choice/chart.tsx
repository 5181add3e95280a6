// SPDX-License-Identifier: MIT
// Candidates by cost and floor length. A ring holds; a cross fails; the chosen one stands on a filled ground.

import { useSignal } from '@preact/signals';
import { useEffect, useRef } from 'preact/hooks';
import type { Candidate } from '../api/types';
import { dollars, print } from '../units/print';
import { words } from '../words';
import { ticks } from './ticks';
import { heaterTitle, layoutTitle } from './names';
import { candidateKey, sameCandidate } from './rank';

const text = words.choice;

interface Props {
    candidates: Candidate[];
    shown: { layout: string; heater: string } | null;
    go: (one: Candidate) => void;
}

export function Chart({ candidates, shown, go }: Props) {
    const frame = useRef<HTMLDivElement>(null);
    const size = useSignal<[number, number]>([380, 200]);
    useEffect(() => {
        const watch = new ResizeObserver(([entry]) => (size.value = [entry!.contentRect.width, entry!.contentRect.height]));
        watch.observe(frame.current!);
        return () => watch.disconnect();
    }, []);
    const points = candidates.filter((one) => one.total && one['floor-length']);
    const [w, h] = size.value;
    const pad = { left: 58, right: 14, top: 10, bottom: 34 };
    // a drawing counts floor in feet, whatever the figure is kept in
    const inches = points[0]?.['floor-length']?.unit === 'in';
    const unit = inches ? 'ft' : (points[0]?.['floor-length']?.unit ?? '');
    const floorOf = (one: Candidate) => one['floor-length']!.value / (inches ? 12 : 1);
    const range = (values: number[]): [number, number] => {
        const low = Math.min(...values);
        const high = Math.max(...values);
        const ease = (high - low || high * 0.1 || 1) * 0.12;
        return [low - ease, high + ease];
    };
    if (points.length === 0) return <div class="chart" ref={frame} />;
    const [x0, x1] = range(points.map(floorOf));
    const [y0, y1] = range(points.map((one) => one.total!.value));
    const x = (v: number) => pad.left + ((v - x0) / (x1 - x0)) * (w - pad.left - pad.right);
    const y = (v: number) => h - pad.bottom - ((v - y0) / (y1 - y0)) * (h - pad.top - pad.bottom);
    return (
        <div class="chart" ref={frame}>
            <svg width={w} height={h} role="group" aria-label={text.chart}>
                {ticks(y0, y1).map((v) => (
                    <g key={v} class="tick">
                        <path d={`M${pad.left} ${y(v)}H${w - pad.right}`} />
                        <text x={pad.left - 7} y={y(v) + 4} text-anchor="end">
                            {dollars(v)}
                        </text>
                    </g>
                ))}
                {ticks(x0, x1).map((v) => (
                    <text key={v} class="tick" x={x(v)} y={h - pad.bottom + 16} text-anchor="middle">
                        {Number(v.toFixed(2))}
                    </text>
                ))}
                <text class="axis" x={w - pad.right} y={h - 3} text-anchor="end">
                    {text.floor}, {unit}
                </text>
                {points.map((one) => {
                    const fails = one.tally?.fail ?? 0;
                    const here = sameCandidate(one, shown);
                    const [cx, cy] = [x(floorOf(one)), y(one.total!.value)];
                    return (
                        <g
                            key={candidateKey(one)}
                            class={`point ${fails > 0 ? 'fail' : (one.tally?.tight ?? 0) > 0 ? 'tight' : 'pass'}${here ? ' here' : ''}${one.chosen ? ' chosen' : ''}`}
                            role="button"
                            tabindex={0}
                            aria-pressed={here}
                            aria-label={`${text.follow(layoutTitle(one.layout), heaterTitle(one.heater))}: ${print(one.total)}, ${print(one['floor-length'])}, ${text.fails(fails)}`}
                            onClick={() => go(one)}
                            onKeyDown={(event) => {
                                if (event.key !== 'Enter' && event.key !== ' ') return;
                                event.preventDefault();
                                go(one);
                            }}
                        >
                            <circle class="halo" cx={cx} cy={cy} r="11" />
                            {fails > 0 ? <path d={`M${cx - 5} ${cy - 5}l10 10m0-10l-10 10`} /> : <circle cx={cx} cy={cy} r="5" />}
                        </g>
                    );
                })}
            </svg>
        </div>
    );
}
