// SPDX-License-Identifier: MIT
// One piece: what it is, its size, what flows in it, why, and the checks it bears on.

import { ofPiece } from '../api/read';
import { Mark } from '../proof/status';
import { worse } from '../proof/order';
import { overCheck } from '../state/focus';
import { route, write } from '../state/route';
import { view } from '../state/view';
import { words } from '../words';

const text = words.room.piece;

export const partSays = (part: string): string => words.room.parts[part] ?? part.replace(/-/g, ' ');

function stateOf(index: number): { flow: string; pressure: string } {
    const [flow, from, to] = ofPiece(view.value?.states, index) ?? [null, '', ''];
    return { flow: flow ?? '', pressure: from !== to ? text.fromTo(from, to) : from };
}

/** One line of it, for what follows the pointer. */
export function pieceLine(index: number): string {
    const piece = view.value?.pieces[index];
    if (!piece) return '';
    const { flow, pressure } = stateOf(index);
    return [piece.title || partSays(piece.part), piece.heater ? text.heater(piece.heater) : '', flow, pressure].filter(Boolean).join(' · ');
}

export function PieceCard({ index }: { index: number }) {
    const piece = view.value?.pieces[index];
    if (!piece) return null;
    const checks = (view.value?.checks ?? []).filter((check) => check.pieces.includes(index)).sort(worse);
    const { flow, pressure } = stateOf(index);
    const why = ofPiece(view.value?.whys, index);
    const rows: [string, string | null][] = [
        [text.size, piece.size || null],
        [text.cut, piece.cut],
        [text.flow, flow],
        [text.pressure, pressure],
    ];
    return (
        <aside class="card" aria-label={text.title} data-piece={piece.id}>
            <header>
                <h3>{piece.title || partSays(piece.part)}</h3>
                <a class="close" href={write({ job: route.value.job })} aria-label={text.close}>
                    ×
                </a>
            </header>
            <p class="soft">
                {[partSays(piece.part), words.room.service[piece.service] ?? piece.service, piece.heater ? text.heater(piece.heater) : '', piece.bank ? text.bank(piece.bank) : '']
                    .filter(Boolean)
                    .join(', ')}
            </p>
            <dl class="two">
                {rows.map(([name, value]) =>
                    value ? (
                        <div key={name}>
                            <dt>{name}</dt>
                            <dd>{value}</dd>
                        </div>
                    ) : null,
                )}
            </dl>
            {why && (
                <>
                    <h4>{text.why}</h4>
                    <p>{why}</p>
                </>
            )}
            <h4>{text.checks}</h4>
            {checks.length === 0 && <p class="soft">{text.noChecks}</p>}
            <ul class="bears">
                {checks.slice(0, 24).map((check, n) => (
                    <li key={check.id}>
                        <a href={write({ job: route.value.job, check: check.id })} onMouseEnter={() => (overCheck.value = check.id)} onMouseLeave={() => (overCheck.value = null)}>
                            <Mark status={check.status} />
                            <span class="unseen">{words.status[check.status]}: </span>
                            {check.title}
                            {n === 0 && <i class="governs"> {text.governs}</i>}
                        </a>
                    </li>
                ))}
            </ul>
            <p class="idline">{piece.id}</p>
        </aside>
    );
}
