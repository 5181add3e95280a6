// SPDX-License-Identifier: MIT
// The survey, read and edited as sentences.

import type { ComponentChildren } from 'preact';
import { at } from '../api/paths';
import { job, survey } from '../state/job';
import { words } from '../words';
import { Connections } from './connections';
import { Fixtures } from './fixtures';
import { List } from './list';
import { Sentences } from './sentence';
import { Slope } from './slope';
import { showPart } from '../frame/parts';
import { folded } from './fold';

const text = words.given;
const says = text.sentences;

interface SectionProps {
    name: keyof typeof text.sections;
    /** Places of the survey it tells, to count what is assumed there. */
    of: string[];
    children: ComponentChildren;
}

function Section({ name, of, children }: SectionProps) {
    const assumed = job.value?.assumed.filter((one) => of.some((start) => one.path.join('.').startsWith(start))).length ?? 0;
    const open = !folded.value.has(name);
    return (
        <details class="section" open={open} data-section={name}
            onToggle={(event) => folded.value.has(name) === event.currentTarget.open && folded.value.turn(name)}>
            <summary>
                <h3>{text.sections[name]}</h3>
                {assumed > 0 && <span class="count">{text.assumedCount(assumed)}</span>}
            </summary>
            <div class="telling">{children}</div>
        </details>
    );
}

function More({ children }: { children: ComponentChildren }) {
    return (
        <details class="more">
            <summary>{text.more}</summary>
            {children}
        </details>
    );
}

export function Given() {
    const loop = at(survey.value, ['recirculation', 'present']) === true;
    return (
        <div class="given">
            <Section name="job" of={['job']}>
                <Sentences texts={says.job} />
            </Section>
            <Section name="building" of={['building']}>
                <Sentences texts={says.building} />
                <Fixtures />
                <List list="building.block" />
                <List list="building.occupancy" />
                <Sentences texts={says.buildingAfter} />
            </Section>
            <Section name="supply" of={['supply']}>
                <Sentences texts={says.supply} />
                <More>
                    <Sentences texts={says.supplyMore} />
                </More>
            </Section>
            <Section name="gas" of={['gas']}>
                <Sentences texts={says.gas} />
                <List list="gas.other" />
            </Section>
            <Section name="water" of={['water']}>
                <Sentences texts={says.water} />
            </Section>
            <Section name="recirculation" of={['recirculation']}>
                <Sentences texts={says.recirculation} />
                {loop && <Sentences texts={says.loop} />}
                {loop && <List list="recirculation.branch" />}
            </Section>
            <Section name="room" of={['room.ceiling', 'room.air', 'room.freez', 'room.term', 'room.wall', 'room.door', 'room.obst', 'room.plan']}>
                <Sentences texts={says.room} />
                <Slope />
                <p>
                    <button type="button" class="quiet" onClick={() => showPart('drawing')}>
                        {text.openDrawing}
                    </button>
                </p>
                <List list="room.wall" />
                <List list="room.door" />
                <List list="room.obstacle" />
            </Section>
            <Section name="way" of={['room.way-in']}>
                <Sentences texts={says.way} />
            </Section>
            <Section name="connections" of={['connections']}>
                <Connections />
            </Section>
            <Section name="site" of={['site']}>
                <Sentences texts={says.site} />
                <More>
                    <Sentences texts={says.siteMore} />
                </More>
            </Section>
            <Section name="codes" of={['codes', 'safety']}>
                <List list="codes" />
                <Sentences texts={says.safety} />
            </Section>
            <Section name="preferences" of={['preferences']}>
                <Sentences texts={says.preferences} />
                <More>
                    <Sentences texts={says.preferencesMore} />
                </More>
            </Section>
        </div>
    );
}
