using SharpFuzz;
using WireUp.Fuzz;

// WireUp.Fuzz TARGET          under afl-fuzz: one input after the other, for ever
// WireUp.Fuzz TARGET FILE...  each file once: to see what a crash that was found is
if (args is not [var name, .. var files] || Targets.Find(name) is not { } target)
{
    Console.Error.WriteLine($"usage: WireUp.Fuzz {string.Join('|', Targets.Names)} [FILE...]");
    return 2;
}

if (files.Length == 0)
{
    Fuzzer.Run(stream =>
    {
        using StreamReader reader = new(stream);
        target(reader.ReadToEnd());
    });
    return 0;
}

TextWriter remarks = Console.Error;
foreach (string file in files)
{
    remarks.WriteLine(file);
    target(File.ReadAllText(file));
}

return 0;
