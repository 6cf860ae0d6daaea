using System.Collections.Concurrent;
using WireUp.Layouts;

namespace WireUp.Planning.Tests.TestLayouts;

/// <summary>The sample layouts and their plans; each is planned once for all tests that look at it.</summary>
internal static class Plans
{
    private static readonly ConcurrentDictionary<string, Lazy<PlanResult>> Known = new(StringComparer.Ordinal);

    /// <summary>File names of the samples, without ending.</summary>
    public static TheoryData<string> Samples =>
        [.. RepoFiles.SampleLayouts.Select(path => Path.GetFileName(path).Replace(".layout.yaml", "", StringComparison.Ordinal))];

    public static Layout Read(string sample)
    {
        string file = $"sample-layouts/{sample}.layout.yaml";
        return LayoutFile.Read(RepoFiles.ReadText(file), file).Layout ?? throw new InvalidOperationException($"'{file}' cannot be read");
    }

    public static PlanResult Of(string sample) => Known.GetOrAdd(sample, name => new(() => Planner.Plan(Read(name)))).Value;
}
