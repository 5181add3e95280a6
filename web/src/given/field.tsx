// SPDX-License-Identifier: MIT
// One number or word of a sentence, edited where it stands.

import { computed, useComputed, useSignal } from '@preact/signals';
import { useId } from 'preact/hooks';
import { at, key, place } from '../api/paths';
import type { Assumed } from '../api/types';
import { edit, job, survey, vocabulary } from '../state/job';
import { drafts, sent, settle, type } from '../state/drafts';
import { outbox } from '../state/outbox';
import { spoken, words } from '../words';
import { helpOf, kindOf, nameOf, nodeAt } from './schema';
import { editOf, shown } from './take';
import { memo } from '../parts';

const text = words.given;

/** The list's name in a path: room.door.0.width is room.door.width to the words. */
const general = (field: string) => field.replace(/\.\d+/g, '');

/** Assumptions by the field's path; one that is told in the same words stays the same object. */
const byField = computed<Map<string, Assumed>>((): Map<string, Assumed> => {
    const old = before;
    const now = new Map<string, Assumed>();
    for (const one of job.value?.assumed ?? []) {
        const field = key(one.path);
        const same = old.get(field);
        now.set(field, same && same.value === one.value && same.says === one.says ? same : one);
    }
    before = now;
    return now;
});
let before = new Map<string, Assumed>();

const assumedAt = (field: string): Assumed | undefined => byField.value.get(field);

export interface FieldProps {
    field: string;
    /** Name to say where the schema's is too general. */
    name?: string;
}

/** How far left a field's help begins so that it stays within its part, pixels. */
function room(field: HTMLElement): number {
    const part = field.closest('.part')?.getBoundingClientRect();
    const slot = field.closest('.slot')?.getBoundingClientRect();
    return part && slot ? Math.min(0, part.right - 24 - 290 - slot.left) : 0;
}

/** Drawn again only when its own value, draft or assumption changes: an edit is felt by every other field otherwise. */
export const Field = memo(function Field({ field, name }: FieldProps) {
    const path = place(field);
    const node = nodeAt(vocabulary.value?.schema, path);
    const kind = kindOf(node);
    const value = useComputed(() => at(survey.value, path));
    const assumed = useComputed(() => assumedAt(field)).value;
    const draft = useComputed(() => drafts.value.get(field)).value;
    const id = useId();
    const help = useSignal(false);
    const shift = useSignal(0);
    const given = shown(value.value);
    const spokenName = name ?? nameOf(node, path);
    const says = [helpOf(node), assumed ? text.assumedTitle(assumed.says) : '', given ? '' : defaultOf(node)].filter(Boolean).join(' ');

    const take = (typed: string) => {
        const wanted = editOf(path, typed, node);
        // Enter is followed by the browser's own word of a change: what is on its way already is not sent twice
        if (outbox.value.some((one) => JSON.stringify(one) === JSON.stringify(wanted))) return;
        const says = drafts.value.get(field)?.says;
        const now = shown(at(survey.value, path));
        if (typed === now && !says) return settle(field);
        if (typed.trim() === '' && now === '') return settle(field);
        sent(field, typed);
        void edit([wanted]);
    };
    const common = {
        id,
        'data-field': field,
        'aria-label': spokenName,
        'aria-invalid': draft?.says ? true : undefined,
        'aria-describedby': `${id}h`,
        class: `field ${kind}${assumed && !given ? ' assumed' : ''}${given || draft ? '' : ' open'}${draft?.says ? ' wrong' : draft ? ' sent' : ''}`,
        onFocus: (event: FocusEvent) => {
            shift.value = room(event.currentTarget as HTMLElement);
            help.value = true;
        },
        onBlur: () => (help.value = false),
    } as const;

    return (
        <span class="slot">
            {kind === 'flag' || kind === 'word' || field === 'preferences.heater' ? (
                <Choice field={field} common={common} given={draft?.text ?? given} assumed={assumed} take={take} />
            ) : (
                <input
                    {...common}
                    type="text"
                    inputMode={kind === 'whole' ? 'numeric' : undefined}
                    autocomplete="off"
                    spellcheck={false}
                    size={Math.max(2, Math.min(30, (draft?.text ?? (given || assumed?.value || shortDefault(node))).length))}
                    value={draft?.text ?? given}
                    placeholder={assumed?.value ?? shortDefault(node)}
                    onInput={(event) => {
                        const typed = event.currentTarget.value;
                        event.currentTarget.size = Math.max(2, Math.min(30, typed.length));
                        type(field, typed);
                    }}
                    onKeyDown={(event) => {
                        if (event.key === 'Enter') take(event.currentTarget.value);
                        if (event.key === 'Escape') {
                            settle(field);
                            event.currentTarget.value = given;
                            event.stopPropagation();
                        }
                    }}
                    onChange={(event) => take(event.currentTarget.value)}
                />
            )}
            {assumed && !given && <Confirm assumed={assumed} name={spokenName} />}
            {draft?.says ? (
                <span class="complaint" role="alert" id={`${id}h`}>
                    {draft.says}
                </span>
            ) : (
                <span class={`help${help.value && says ? ' up' : ''}`} id={`${id}h`} style={{ left: `${shift.value}px` }}>
                    {says}
                </span>
            )}
        </span>
    );
});

function defaultOf(node: ReturnType<typeof nodeAt>): string {
    return node?.default === undefined || kindOf(node) === 'flag' ? '' : text.default(spoken(String(node.default)));
}

const shortDefault = (node: ReturnType<typeof nodeAt>): string =>
    node?.default === undefined || typeof node.default === 'object' ? text.notGiven : String(node.default);

interface ChoiceProps {
    field: string;
    common: object;
    given: string;
    assumed: Assumed | undefined;
    take: (typed: string) => void;
}

function Choice({ field, common, given, assumed, take }: ChoiceProps) {
    const node = nodeAt(vocabulary.value?.schema, place(field));
    const flag = text.flags[general(field)] ?? [text.yes, text.no];
    const isFlag = kindOf(node) === 'flag';
    const word = (one: string) => text.choices[`${general(field)}/${one}`] ?? spoken(one);
    const choices: [string, string][] = isFlag
        ? [['true', flag[0]], ['false', flag[1]]]
        : field === 'preferences.heater'
          ? (vocabulary.value?.heaters ?? []).map((heater) => [heater.key, heater.title])
          : (node?.enum ?? []).map((one) => [one, word(one)]);
    const fallback = assumed?.value ?? (node?.default === undefined ? undefined : String(node.default));
    const label = choices.find(([one]) => one === fallback)?.[1] ?? fallback ?? text.notGiven;
    return (
        <select {...common} value={given} onChange={(event) => take(event.currentTarget.value)}>
            <option value="">{given ? `– ${text.notGiven} –` : label}</option>
            {given && !choices.some(([one]) => one === given) && <option value={given}>{given}</option>}
            {choices.map(([one, said]) => (
                <option key={one} value={one}>
                    {said}
                </option>
            ))}
        </select>
    );
}

/** Marks what was assumed; one click writes it into the survey. */
export function Confirm({ assumed, name }: { assumed: Assumed; name: string }) {
    if (!assumed.confirm) {
        return (
            <span class="confirm open" title={text.assumedTitle(assumed.says)}>
                {text.assumed}
            </span>
        );
    }
    return (
        <button
            type="button"
            class={`confirm${assumed.safety ? ' safety' : ''}`}
            title={`${text.assumedTitle(assumed.says)}${assumed.safety ? ` (${text.safety})` : ''}`}
            aria-label={text.confirmName(name, assumed.value)}
            onClick={() => void edit(assumed.confirm!)}
        >
            {text.assumed} · {text.confirm}
        </button>
    );
}
