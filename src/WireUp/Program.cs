using WireUp.Commands;

return await Verbs.RunAsync(args).ConfigureAwait(false);
