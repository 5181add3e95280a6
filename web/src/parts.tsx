// SPDX-License-Identifier: MIT
// Ways to draw less and later. Preact's own for these come with habits of another library: a text field's change would then
// be told at every key.

import { signal } from '@preact/signals';
import { Component, type ComponentType, type VNode } from 'preact';

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
