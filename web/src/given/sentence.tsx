// SPDX-License-Identifier: MIT
// A sentence with fields in it.

import { Field } from './field';
import { cut } from './schema';

/** `base` stands before fields that begin with a point. */
export function Sentence({ text, base = '', entry }: { text: string; base?: string; entry?: string }) {
    return (
        <>
            {cut(text).map((part, index) =>
                typeof part === 'string' ? (
                    <span key={index}>{part}</span>
                ) : (
                    <Field
                        key={base + part.field}
                        field={part.field.startsWith('.') ? base + part.field : part.field}
                        name={entry ? `${entry}: ${part.field.replace(/^\./, '').replace(/[.-]/g, ' ')}` : undefined}
                    />
                ),
            )}
        </>
    );
}

export function Sentences({ texts }: { texts: string[] }) {
    return (
        <p>
            {texts.map((text) => (
                <span class="sentence" key={text}>
                    <Sentence text={text} />{' '}
                </span>
            ))}
        </p>
    );
}
