using System.Collections.Concurrent;
using WireUp.Layouts;
using WireUp.Rails;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>The sample layouts and their plans; each is planned once for all tests that look at it.</summary>
internal static class Plans
{
    private static readonly ConcurrentDictionary<string, Lazy<PlanResult>> Known = new(StringComparer.Ordinal);

    /// <summary>File names of the samples, without ending.</summary>
    public static TheoryData<string> Samples =>
        [.. RepoFiles.SampleLayouts.Select(path => Path.GetFileName(path).Replace(".layout.yaml", "", StringComparison.Ordinal))];

    /// <summary>Those whose wiring, as far as it goes, joins nothing that must not meet. A plan does not mend what was built wrong.</summary>
    public static TheoryData<string> SoundSamples => [.. Samples.Select(row => row.Data).Where(IsSound)];

    private static bool IsSound(string sample)
    {
        PolarityReport polarity = Polarity.Analyse(RailGraph.Build(Read(sample)));
        return polarity.Standing.IsEmpty && polarity.ByPosition.IsEmpty && polarity.Exchanged.IsEmpty;
    }

    public static Layout Read(string sample) => ExampleLayouts.Sample(sample);

    public static PlanResult Of(string sample) => Known.GetOrAdd(sample, name => new(() => Planner.Plan(Read(name)))).Value;
}
