namespace WireUp.Layouts.Tests.Rules;

public sealed class SampleTests
{
    public static TheoryData<string> Samples => [.. RepoFiles.SampleLayouts.Select(path => Path.GetFileName(path))];

    [Theory]
    [MemberData(nameof(Samples))]
    public void Every_sample_is_read_without_a_problem(string sample)
    {
        LayoutReading reading = LayoutFile.Read(RepoFiles.ReadText($"sample-layouts/{sample}"), sample);
        Assert.Equal([], reading.Problems.Select(problem => problem.ToString()));
        Assert.NotNull(reading.Layout);
    }
}
