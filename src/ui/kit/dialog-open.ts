/** Whether one of the program's own dialogs is over the window (the player keeps hidden dialogs of its own). */
export const dialogOpen = (): boolean => document.querySelector('.dialog') !== null;
