/** Conversations within a group: `channel:chat:person`, beside what everybody there reads, `channel:chat`. */

/** Where everybody present reads along: the group of a conversation, or the conversation itself. */
export function sharedChat(conversation: string): string {
  return conversation.split(':').slice(0, 2).join(':');
}

/** Whether a conversation is held where this one is shown: the same, or in the same group. */
export function isWithin(conversation: string, shown: string): boolean {
  return conversation === shown || sharedChat(conversation) === shown;
}
