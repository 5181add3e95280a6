// SPDX-License-Identifier: MIT
// The desk: the parts of the page laid out for the screen there is.

import { effect } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect } from 'preact/hooks';
import { BetterFound } from '../choice/better';
import { Choice } from '../choice/choice';
import { keepFollowed } from '../choice/follow';
import { layoutTitle } from '../choice/names';
import { Demand } from '../demand/demand';
import { Papers } from '../documents/papers';
import { Given } from '../given/given';
import { Plan } from '../plan/plan';
import { Proof } from '../proof/proof';
import { leaveTrial, onTrial } from '../proof/remedies';
import { Room } from '../room/room';
import { job, missing, notice, open } from '../state/job';
import { jobId, route } from '../state/route';
import { clearViews, followed } from '../state/view';
import { words } from '../words';
import { allParts, below, front, picture, showPart, type Part } from './parts';
import { Title } from './title';

const text = words.frame;

function Region({ part, shown, children }: { part: Part; shown: boolean; children: ComponentChildren }) {
    return (
        <section class={`part ${part}${front.value === part ? ' front' : ''}${shown ? ' shown' : ''}`} data-part={part} aria-label={text[part]}>
            {children}
        </section>
    );
}

function Tabs({ parts, now, name }: { parts: readonly Part[]; now: Part; name: string }) {
    return (
        <div class="tabs" role="group" aria-label={name}>
            {parts.map((part) => (
                <button type="button" key={part} class="tab" aria-pressed={now === part} onClick={() => showPart(part)}>
                    {text[part]}
                </button>
            ))}
        </div>
    );
}

// at once, not when the desk was drawn: a view kept by the server may have come by then
effect(() => {
    void jobId.value;
    clearViews();
});

export function Desk() {
    const id = jobId.value!;
    useEffect(() => void open(id), [id]);
    useEffect(() => {
        document.title = `${job.value?.name ?? '…'} · ${words.name}`;
    }, [job.value?.name]);
    useEffect(() => {
        if (route.value.check) showPart('proof');
        if (route.value.piece) showPart('room');
    }, [route.value.check, route.value.piece]);
    if (missing.value) {
        return (
            <main class="home" id="main">
                <p>{words.jobs.missing}</p>
                <p>
                    <a href="#/">{words.jobs.back}</a>
                </p>
            </main>
        );
    }
    return (
        <div class={`desk front-${front.value}`}>
            <a class="skip" href="#main" onClick={(event) => (event.preventDefault(), document.querySelector<HTMLElement>('.part.given input')?.focus())}>
                {text.skip}
            </a>
            <Title />
            <Notices />
            <nav class="switch" aria-label={text.parts}>
                <Tabs parts={allParts} now={front.value} name={text.parts} />
            </nav>
            <main id="main" class="parts">
                <Region part="given" shown>
                    <Given />
                </Region>
                <div class={`middle${picture.value === 'drawing' ? ' drawn' : ''}`}>
                    <Tabs parts={['room', 'drawing']} now={picture.value} name={`${text.room}, ${text.drawing}`} />
                    <Region part="room" shown={picture.value === 'room'}>
                        <Room />
                    </Region>
                    <Region part="drawing" shown={picture.value === 'drawing'}>
                        {picture.value === 'drawing' && <Plan />}
                    </Region>
                </div>
                <div class="below">
                    <Tabs parts={['choice', 'demand', 'papers']} now={below.value} name={`${text.choice}, ${text.demand}, ${text.papers}`} />
                    <Region part="choice" shown={below.value === 'choice'}>
                        {below.value === 'choice' && <Choice />}
                    </Region>
                    <Region part="demand" shown={below.value === 'demand'}>
                        {below.value === 'demand' && <Demand />}
                    </Region>
                    <Region part="papers" shown={below.value === 'papers'}>
                        {below.value === 'papers' && <Papers />}
                    </Region>
                </div>
                <Region part="proof" shown>
                    <Proof />
                </Region>
            </main>
        </div>
    );
}

/** What must be known now: a message of the server, a candidate followed. */
function Notices() {
    const candidate = followed.value?.layout;
    return (
        <div class="notices" aria-live="polite">
            {notice.value && (
                <p class="notice wrong">
                    {notice.value}{' '}
                    <button type="button" class="tool" onClick={() => (notice.value = null)}>
                        ×
                    </button>
                </p>
            )}
            <BetterFound />
            {candidate && !onTrial.value && (
                <p class="notice">
                    {words.choice.following(layoutTitle(candidate.id))}{' '}
                    <button type="button" class="act" onClick={leaveTrial}>
                        {words.choice.back}
                    </button>{' '}
                    <button type="button" class="act strong" onClick={keepFollowed}>
                        {words.choice.keep}
                    </button>
                </p>
            )}
        </div>
    );
}
