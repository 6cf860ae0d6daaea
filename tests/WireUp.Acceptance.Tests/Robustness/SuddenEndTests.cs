using System.Diagnostics;
using WireUp.Acceptance.Tests.Program;

namespace WireUp.Acceptance.Tests.Robustness;

/// <summary>The program is killed while it writes; every file is the old one or the new one, whole.</summary>
public class SuddenEndTests
{
    private const string Beside = ".new";

    public static TheoryData<string> Names => [.. Writer.All.Select(writer => writer.Name)];

    [Theory]
    [InlineData("import")]
    [InlineData("diagnose --cured")]
    public async Task Ten_sudden_ends_leave_every_file_old_or_new(string name)
    {
        Tally tally = new();
        await KillAsync(Writer.All.Single(writer => writer.Name == name), rounds: 10, tally, seed: 1);
        Assert.True(tally is { Rounds: 10, Killed: > 0 }, tally.ToString());
    }

    /// <summary>Each writer in four folders at once, 560 ends in all; prints what came of them.</summary>
    [Theory(Explicit = true)]
    [MemberData(nameof(Names))]
    public async Task Many_sudden_ends_of_every_writer_leave_every_file_old_or_new(string name)
    {
        Writer writer = Writer.All.Single(writer => writer.Name == name);
        Tally tally = new();
        await Task.WhenAll(Enumerable.Range(0, 4).Select(worker => Task.Run(() => KillAsync(writer, writer.IsSlow ? 3 : 17, tally, seed: worker))));
        TestContext.Current.TestOutputHelper!.WriteLine($"{name}: {tally}");
        Assert.True(tally.Killed >= tally.Rounds / 2 && tally.WhileWriting > 0, tally.ToString());
    }

    [Fact]
    public async Task A_file_that_is_written_in_place_would_be_found_torn()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "needs sh");
        string file = Path.GetTempFileName();
        try
        {
            using Process writing = Process.Start("sh", ["-c", $"printf 'the new' > '{file}'; sleep 60; printf ' text' >> '{file}'"]);
            while (new FileInfo(file).Length == 0) await Task.Delay(5, TestContext.Current.CancellationToken);
            writing.Kill(entireProcessTree: true);
            await writing.WaitForExitAsync(TestContext.Current.CancellationToken);
            Assert.False(IsWhole(await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken), "the old text"u8.ToArray(), "the new text"u8.ToArray()));
        }
        finally
        {
            File.Delete(file);
        }
    }

    private static bool IsWhole(byte[]? found, byte[]? old, byte[] made) => found is null ? old is null : found.AsSpan().SequenceEqual(made) || (old is not null && found.AsSpan().SequenceEqual(old));

    private static async Task KillAsync(Writer writer, int rounds, Tally tally, int seed)
    {
        using ScratchFolder scratch = new();
        Random random = new(20261128 + seed);
        long start = Stopwatch.GetTimestamp();
        Dictionary<string, byte[]> made = await writer.UndisturbedAsync(scratch);
        TimeSpan whole = Stopwatch.GetElapsedTime(start);
        string[] names = [.. made.Keys];
        for (int round = 0; round < rounds; round++)
        {
            Dictionary<string, byte[]> old = writer.Put(scratch, names);
            string? awaited = round % 4 == 3 ? null : Path.Combine(scratch.PathOf(writer.Folder), names[random.Next(names.Length)] + Beside);
            bool killed = await KillOneAsync(scratch, writer, awaited, awaited is null ? whole * random.NextDouble() : TimeSpan.Zero);
            Dictionary<string, byte[]> found = writer.Files(scratch);
            foreach (string name in names)
            {
                Assert.True(IsWhole(found.GetValueOrDefault(name), old.GetValueOrDefault(name), made[name]), $"{writer}, round {round}: {name} is neither the old file nor the new one");
            }

            string[] others = [.. found.Keys.Except(names)];
            Assert.All(others, other => Assert.EndsWith(Beside, other, StringComparison.Ordinal));
            tally.Add(killed, whileWriting: others.Length > 0, isNew: names.Any(name => found.TryGetValue(name, out byte[]? now) && now.AsSpan().SequenceEqual(made[name])));
        }

        await GoesOnAsync(scratch, writer, made);
    }

    /// <summary>What a sudden end left beside the files is in nobody's way: the next run writes all of them and clears it up.</summary>
    private static async Task GoesOnAsync(ScratchFolder scratch, Writer writer, Dictionary<string, byte[]> made)
    {
        writer.Put(scratch, made.Keys);
        foreach (string name in made.Keys.Where(name => !writer.Given.Contains(name))) await File.WriteAllTextAsync(Path.Combine(scratch.PathOf(writer.Folder), name + Beside), "half of", TestContext.Current.CancellationToken);
        Wireup.Outcome outcome = await Wireup.RunAsync(scratch.Path, writer.Arguments);
        Assert.True(outcome.ExitCode is 0 or 1, outcome.ToString());
        Dictionary<string, byte[]> found = writer.Files(scratch);
        Assert.Equal(made.Keys.Order(StringComparer.Ordinal), found.Keys.Order(StringComparer.Ordinal));
        Assert.All(made, file => Assert.Equal(file.Value, found[file.Key]));
    }

    /// <summary>Starts the program and kills it: after some time, or when the awaited file begins to be written. False when it ended before.</summary>
    private static async Task<bool> KillOneAsync(ScratchFolder scratch, Writer writer, string? awaited, TimeSpan wait)
    {
        ProcessStartInfo start = new("dotnet", [Path.Combine(AppContext.BaseDirectory, "wireup.dll"), .. writer.Arguments])
        {
            WorkingDirectory = scratch.Path,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            UseShellExecute = false,
        };
        using Process process = Process.Start(start)!;
        Task<string> output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken), error = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        long from = Stopwatch.GetTimestamp();
        while (!process.HasExited && (awaited is not null ? !File.Exists(awaited) : Stopwatch.GetElapsedTime(from) < wait)) Thread.Sleep(1);
        process.Kill();
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        await Task.WhenAll(output, error);
        return process.ExitCode == 128 + 9;
    }

    private sealed class Tally
    {
        private readonly Lock _gate = new();

        public int Rounds { get; private set; }

        public int Killed { get; private set; }

        public int WhileWriting { get; private set; }

        private int New { get; set; }

        public void Add(bool killed, bool whileWriting, bool isNew)
        {
            lock (_gate)
            {
                Rounds++;
                if (killed) Killed++;
                if (whileWriting) WhileWriting++;
                if (isNew) New++;
            }
        }

        public override string ToString() => $"{Rounds} rounds: {Killed} ended by the kill, {WhileWriting} of them while a file was being written, {New} with a new file in place";
    }
}
