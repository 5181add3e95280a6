// SPDX-License-Identifier: MIT
// A list in the survey, one sentence an entry, with adding and removing.

import { at, key, place } from '../api/paths';
import type { Assumed, Json } from '../api/types';
import { edit, job, survey } from '../state/job';
import { spoken, words } from '../words';
import { Confirm } from './field';
import { Sentence } from './sentence';

const text = words.given;

/** What a new entry holds until it is edited: something the reader of surveys accepts. */
const fresh: { [list: string]: (n: number) => Json } = {
    'building.block': (n) => ({ name: `load ${n}`, count: 1, flow: '2 gpm', temperature: '105 degF' }),
    'building.occupancy': () => ({ kind: 'motel-20', count: 1 }),
    'gas.other': (n) => ({ name: `appliance ${n}`, input: '0 kBtu/h' }),
    'recirculation.branch': (n) => ({ name: `branch ${n}`, length: '100 ft', size: '1' }),
    'room.wall': (n) => ({ number: n }),
    'room.door': () => ({ wall: 1, offset: '1 ft', width: '36 in' }),
    'room.obstacle': (n) => ({ name: `obstacle ${n}`, from: ['1 ft', '1 ft', '0 ft'], to: ['2 ft', '2 ft', '8 ft'] }),
    codes: () => ({ document: 'IFGC', edition: '2018' }),
};

function nextWall(entries: Json[]): number {
    const taken = new Set(entries.map((one) => (one as { number?: number }).number));
    let n = 1;
    while (taken.has(n)) ++n;
    return n;
}

export function List({ list }: { list: string }) {
    const path = place(list);
    const entries = (at(survey.value, path) as Json[] | undefined) ?? [];
    const { one, entry } = text.lists[list]!;
    const add = () => {
        const n = list === 'room.wall' ? nextWall(entries) : entries.length + 1;
        void edit([{ path, append: fresh[list]!(n) }]);
    };
    return (
        <ul class="entries" data-list={list}>
            {entries.map((value, index) => {
                const name = (value as { name?: string }).name ?? `${one} ${index + 1}`;
                return (
                    <li key={index}>
                        <Sentence text={entry} base={`${list}.${index}`} entry={name} />
                        <button type="button" class="drop" aria-label={text.remove(name)} title={text.remove(name)}
                            onClick={() => void edit([{ path: [...path, index], remove: true }])}>
                            ×
                        </button>
                    </li>
                );
            })}
            <Taken list={list} empty={entries.length === 0} />
            <li class="adding">
                <button type="button" class="quiet" onClick={add}>
                    + {text.add(one)}
                </button>
            </li>
        </ul>
    );
}

/** What was assumed about a list as a whole: that it is empty, or what its entries leave out. */
function Taken({ list, empty }: { list: string; empty: boolean }) {
    const assumed = job.value?.assumed.filter((one) => key(one.path) === list) ?? [];
    return (
        <>
            {assumed.map((one, index) => (
                <li key={`assumed ${index}`} class="taken">
                    <span class="soft">
                        {named(one)}: {spoken(one.value)} – {one.says}{' '}
                    </span>
                    <Confirm assumed={withEmpty(one, list, empty)} name={named(one)} />
                </li>
            ))}
        </>
    );
}

/** "room.wall.3.build" as words, where the server names the field. */
const named = (one: Assumed): string => (one.field ?? key(one.path)).split('.').slice(1).join(' ').replace(/-/g, ' ');

/** That there is none is confirmed by an empty list. */
function withEmpty(one: Assumed, list: string, empty: boolean): Assumed {
    if (one.confirm || !empty || list !== 'gas.other') return one;
    return { ...one, confirm: [{ path: one.path, value: [] }] };
}
