using WireUp.Acceptance.Tests.Program;

namespace WireUp.Acceptance.Tests.Robustness;

/// <summary>The same question has the same answer, byte for byte, wherever it is asked.</summary>
public class RepeatabilityTests
{
    private static readonly (string Name, string Value)[][] Places =
    [
        [("LANG", "de_DE.UTF-8"), ("LC_ALL", "de_DE.UTF-8"), ("TZ", "Pacific/Kiritimati")],
        [("LANG", "tr_TR.UTF-8"), ("LC_ALL", "tr_TR.UTF-8"), ("TZ", "Pacific/Niue"), ("DOTNET_PROCESSOR_COUNT", "1")],
        [("LANG", "ar_EG.UTF-8"), ("LC_ALL", "ar_EG.UTF-8"), ("TZ", "Asia/Kathmandu"), ("DOTNET_PROCESSOR_COUNT", "8"), ("DOTNET_gcServer", "1")],
    ];

    [Theory]
    [InlineData("check", "sample-layouts/tarrow-valley-as-built.layout.yaml", "--json")]
    [InlineData("plan", "sample-layouts/home-yard.layout.yaml", "--json")]
    [InlineData("power", "sample-layouts/home-yard.layout.yaml", "--session", "1h", "--json")]
    [InlineData("diagnose", "sample-layouts/slate-branch.layout.yaml", "--readings", "sample-layouts/slate-branch.readings.yaml", "--json")]
    [InlineData("export", "sample-layouts/home-yard.layout.yaml", "--format", "spice")]
    public async Task An_answer_does_not_hang_on_language_time_zone_or_processors(params string[] question)
    {
        using ScratchFolder folder = new();
        Wireup.Outcome first = await Wireup.RunAsync(folder.Path, question);
        Assert.True(first.ExitCode is 0 or 1, first.ToString());
        foreach ((string, string)[] place in Places)
        {
            Assert.Equal(first.Output, (await Wireup.RunAsync(folder.Path, null, question, place)).Output);
        }
    }
}
