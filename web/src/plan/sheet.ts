// SPDX-License-Identifier: MIT
// From metres in plan to pixels on the sheet, and back.

import { signal } from '@preact/signals';
import { useCallback, useRef } from 'preact/hooks';
import type { Point } from './geometry';

export interface Sheet {
    width: number;
    height: number;
    /** Pixels a metre. */
    scale: number;
    to: (p: Point) => Point;
    from: (x: number, y: number) => Point;
}

export const size = signal<[number, number]>([600, 400]);

export function fit(points: readonly Point[], [width, height]: readonly [number, number], margin = 54): Sheet {
    const xs = points.map((p) => p[0]);
    const ys = points.map((p) => p[1]);
    const low: Point = [Math.min(...xs), Math.min(...ys)];
    const high: Point = [Math.max(...xs), Math.max(...ys)];
    const scale = Math.max(1, Math.min((width - 2 * margin) / Math.max(0.5, high[0] - low[0]), (height - 2 * margin) / Math.max(0.5, high[1] - low[1])));
    const left = (width - (high[0] - low[0]) * scale) / 2;
    const top = (height - (high[1] - low[1]) * scale) / 2;
    return {
        width,
        height,
        scale,
        to: ([x, y]) => [left + (x - low[0]) * scale, top + (high[1] - y) * scale],
        from: (x, y) => [low[0] + (x - left) / scale, high[1] - (y - top) / scale],
    };
}

/** Keeps `size` to that of whichever element carries it. */
export function useSize() {
    const watch = useRef<ResizeObserver | null>(null);
    return useCallback((frame: HTMLDivElement | null) => {
        watch.current?.disconnect();
        watch.current = null;
        if (!frame) return;
        if (frame.clientWidth > 10) size.value = [frame.clientWidth, frame.clientHeight];
        watch.current = new ResizeObserver(([entry]) => {
            const box = entry!.contentRect;
            if (box.width > 10) size.value = [box.width, box.height];
        });
        watch.current.observe(frame);
    }, []);
}
