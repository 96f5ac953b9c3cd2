/** Posting updates to the bot's webhook, one after the other, again and again until it answers 200. */
import { setTimeout as pause } from 'node:timers/promises';
import type { World } from './methods.ts';

interface Target extends World {
  webhookTarget: string | undefined;
}

const RETRY_MS = 30;

async function posted(fake: Target, url: string, secret: string): Promise<boolean> {
  const update = fake.queue.first();
  if (update === undefined) return true;
  try {
    const response = await fetch(url, {
      method: 'POST',
      headers: { 'content-type': 'application/json', 'x-telegram-bot-api-secret-token': secret },
      body: JSON.stringify(update),
    });
    await response.text();
    if (response.status !== 200) return false;
    fake.queue.confirm(update.update_id);
    return true;
  } catch {
    return false;
  }
}

/** Delivers whenever there is something to deliver and somewhere to deliver it, until the signal. */
export function deliverByWebhook(fake: Target, signal: AbortSignal): void {
  let isRunning = false;
  const run = async (): Promise<void> => {
    if (isRunning) return;
    isRunning = true;
    while (
      !signal.aborted &&
      fake.queue.waiting() > 0 &&
      fake.webhook !== undefined &&
      fake.webhookTarget !== undefined
    )
      if (!(await posted(fake, fake.webhookTarget, fake.webhook.secret))) await pause(RETRY_MS);
    isRunning = false;
  };
  fake.queue.onAdd = () => void run();
}
