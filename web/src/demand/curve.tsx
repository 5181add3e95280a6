// SPDX-License-Identifier: MIT
// A uPlot chart in the page's own inks, as wide as where it stands.

import { useEffect, useRef } from 'preact/hooks';
import uPlot from 'uplot';
import 'uplot/dist/uPlot.min.css';
import { dark } from '../state/settings';

interface Props {
    name: string;
    data: uPlot.AlignedData;
    options: (inks: Inks) => Omit<uPlot.Options, 'width' | 'height'>;
    height?: number;
}

export interface Inks {
    ink: string;
    soft: string;
    rule: string;
    accent: string;
    fill: string;
}

function inks(): Inks {
    const style = getComputedStyle(document.documentElement);
    const of = (name: string) => style.getPropertyValue(name).trim();
    return { ink: of('--ink'), soft: of('--soft'), rule: of('--rule'), accent: of('--accent'), fill: of('--accent-wash') };
}

export function Curve({ name, data, options, height = 170 }: Props) {
    const frame = useRef<HTMLDivElement>(null);
    const shade = dark.value;
    useEffect(() => {
        const host = frame.current!;
        const plot = new uPlot({ ...options(inks()), width: Math.max(120, host.clientWidth), height }, data, host);
        const watch = new ResizeObserver(() => plot.setSize({ width: Math.max(120, host.clientWidth), height }));
        watch.observe(host);
        return () => {
            watch.disconnect();
            plot.destroy();
        };
    }, [JSON.stringify(data), shade]);
    return <div class="curve" ref={frame} role="img" aria-label={name} style={{ minHeight: `${height}px` }} />;
}
