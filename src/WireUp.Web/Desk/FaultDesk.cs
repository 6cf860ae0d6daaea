using System.Collections.Immutable;
using WireUp.Faults;
using WireUp.Layouts;
using WireUp.Web.Folders;

namespace WireUp.Web.Desk;

/// <summary>What readings came to.</summary>
/// <param name="Set">The readings.</param>
/// <param name="Diagnosis">What they say, or null.</param>
/// <param name="Trouble">Why there is no answer; null where there is one.</param>
internal sealed record FaultAnswer(ReadingSet Set, Diagnosis? Diagnosis, string? Trouble);

/// <summary>Asks the room of faults, in the background, with what the fault log beside the layout teaches, as the command line does.</summary>
internal sealed class FaultDesk(ILayoutFolder folder, SharedWork work)
{
    private const int MostTries = 5;

    /// <summary>Whether a file of readings lies beside the layout.</summary>
    public bool HasFile(LayoutName name) => folder.Read(name, FileRole.Readings) is not StoredFile.Missing;

    /// <summary>The readings of the file beside the layout, or what is wrong with it.</summary>
    public (ReadingSet? Set, string? Trouble) File(OpenLayout open)
    {
        switch (folder.Read(open.Name, FileRole.Readings))
        {
            case StoredFile.Found found:
                ReadingsReading read = ReadingsFile.Read(open.Layout!, found.Text, open.Name + ReadingsFile.Ending);
                return (read.Readings, read.Readings is null ? Mend(open.Name + ReadingsFile.Ending, read.Problems) : null);
            case StoredFile.Unreadable unreadable:
                return (null, unreadable.Reason);
            default:
                return (null, "There is no file of readings beside the layout.");
        }
    }

    /// <summary>Ranks what explains the readings.</summary>
    public async Task<FaultAnswer> AskAsync(OpenLayout open, ReadingSet set, bool isPairs, CancellationToken cancel)
    {
        (FaultPriors? priors, string version, string? trouble) = Priors(open);
        if (priors is null) return new(set, null, trouble);
        string name = $"faults {isPairs} {version} {set.Meter} {set.Tools} {set.LoadBox}\n{string.Join('\n', set.Readings)}";
        return await work.GetAsync(
            open.Version,
            name,
            (_, stop) => FaultSearch.Rank(open.Layout!, set, priors, new() { Pairs = isPairs }, stop) is { } diagnosis
                ? new FaultAnswer(set, diagnosis, null)
                : new FaultAnswer(set, null, "The circuit of this layout has no solution to hold readings against: it needs a booster with its wiring; Check says what is missing."),
            null,
            cancel);
    }

    /// <summary>Adds what was mended to the fault log beside the layout, which keeps everything else that stands in it.</summary>
    /// <returns>Why nothing was written; null where it was.</returns>
    public string? Log(LayoutName name, ReadingSet set, RankedFault cured, string cure, DateOnly date)
    {
        for (int i = 0; i < MostTries; i++)
        {
            StoredFile now = folder.Read(name, FileRole.FaultLog);
            if (now is StoredFile.Unreadable unreadable) return unreadable.Reason;
            string? text = (now as StoredFile.Found)?.Text;
            try
            {
                foreach (Fault part in cured.Parts) text = FaultLogFile.WithAdded(text, FaultHistory.Entry(part.Element, part.State, set, cure, date));
            }
            catch (ArgumentException misfit)
            {
                return $"'{name + FaultLogFile.Ending}' was left as it is: {misfit.Message}";
            }

            SaveOutcome outcome = folder.Save(name, FileRole.FaultLog, text!, (now as StoredFile.Found)?.Version);
            if (outcome is not SaveOutcome.Conflict) return (outcome as SaveOutcome.Refused)?.Reason;
        }

        return "Others are writing into the fault log at this moment; write it again.";
    }

    private (FaultPriors? Priors, string Version, string? Trouble) Priors(OpenLayout open)
    {
        switch (folder.Read(open.Name, FileRole.FaultLog))
        {
            case StoredFile.Found found:
                FaultLogReading read = FaultLogFile.Read(found.Text, open.Name + FaultLogFile.Ending);
                return read.Log is { } log
                    ? (FaultHistory.Learn(open.Layout!, open.Layout!.FaultPriors, log), found.Version, null)
                    : (null, "", Mend(open.Name + FaultLogFile.Ending, read.Problems));
            case StoredFile.Unreadable unreadable:
                return (null, "", unreadable.Reason);
            default:
                return (FaultHistory.Learn(open.Layout!, open.Layout!.FaultPriors, FaultLog.None), "", null);
        }
    }

    private static string Mend(string file, ImmutableArray<LayoutProblem> problems) => $"'{file}' cannot be used until it is mended: {problems[0]}";
}
