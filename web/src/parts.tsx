// SPDX-License-Identifier: MIT
// Ways to draw less and later, and to keep the reader's place. Preact's own for the first two come with habits of another library: a
// text field's change would then be told at every key.

import { signal } from '@preact/signals';
import { Component, type ComponentType, type RefObject, type VNode } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';

const alike = (one: object, other: object): boolean => {
    const names = new Set([...Object.keys(one), ...Object.keys(other)]);
    return [...names].every((name) => Reflect.get(one, name) === Reflect.get(other, name));
};

/** Drawn again only when its properties, or a signal it reads, are others. */
export function memo<P extends object>(Inner: ComponentType<P>, same: (one: P, other: P) => boolean = alike): ComponentType<P> {
    return class extends Component<P> {
        override shouldComponentUpdate(next: P): boolean {
            return !same(this.props as P, next);
        }
        override render() {
            return <Inner {...(this.props as P)} />;
        }
    };
}

/** Fetched when it is first drawn; `meanwhile` stands in its place. */
export function later<P extends object>(load: () => Promise<ComponentType<P>>, meanwhile: VNode): ComponentType<P> {
    const found = signal<{ Part: ComponentType<P> } | null>(null);
    let asked = false;
    return function Later(props: P) {
        if (!asked) void load().then((Part) => (found.value = { Part }));
        asked = true;
        return found.value ? <found.value.Part {...props} /> : meanwhile;
    };
}

/** For a list whose order changes while somebody goes through it: what had the focus (told by its data-hold) has it still, at the same
 * height of the screen; where it went, what stands in its place has it. */
export function useKeptFocus<T extends HTMLElement>(): RefObject<T> {
    const list = useRef<T>(null);
    const all = () => [...(list.current?.querySelectorAll<HTMLElement>('[data-hold]') ?? [])];
    const focused = list.current?.contains(document.activeElement) ? (document.activeElement as HTMLElement) : null;
    const place = focused && { name: focused.dataset.hold, index: all().indexOf(focused), top: focused.getBoundingClientRect().top };
    useLayoutEffect(() => {
        if (!place?.name) return;
        const now = all();
        const there = now.find((one) => one.dataset.hold === place.name);
        const next = there ?? now[Math.min(place.index, now.length - 1)];
        if (document.activeElement !== next) next?.focus({ preventScroll: true });
        const by = there ? there.getBoundingClientRect().top - place.top : 0;
        if (by !== 0) scrolled(list.current)?.scrollBy(0, by);
    });
    return list;
}

function scrolled(from: HTMLElement | null): HTMLElement | null {
    for (let one = from; one; one = one.parentElement) if (/auto|scroll/.test(getComputedStyle(one).overflowY)) return one;
    return document.documentElement;
}
