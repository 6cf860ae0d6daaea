using System.IO.Compression;
using SharpFuzz;
using WireUp.Fuzz;

// WireUp.Fuzz TARGET          under afl-fuzz: one input after the other, for ever
// WireUp.Fuzz TARGET FILE...  each file once, and each in a .zip: to see what a crash that was found is, or to try what was kept
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
foreach (string file in files.Where(file => !file.EndsWith(".zip", StringComparison.Ordinal)))
{
    remarks.WriteLine(file);
    target(File.ReadAllText(file));
}

foreach (string file in files.Where(file => file.EndsWith(".zip", StringComparison.Ordinal)))
{
    using ZipArchive kept = ZipFile.OpenRead(file);
    foreach (ZipArchiveEntry entry in kept.Entries)
    {
        using StreamReader reader = new(entry.Open());
        string text = reader.ReadToEnd();
        try
        {
            target(text);
        }
        catch
        {
            remarks.WriteLine($"{file}: {entry.FullName}");
            throw;
        }
    }

    remarks.WriteLine($"{file}: {kept.Entries.Count} inputs read or refused");
}

return 0;
