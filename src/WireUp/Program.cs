using System.CommandLine;

var root = new RootCommand("WireUp turns a track plan into a railway that runs: the electrical half, end to end.");
return await root.Parse(args).InvokeAsync();
