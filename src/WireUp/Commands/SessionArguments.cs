using System.CommandLine;
using System.Globalization;
using UnitsNet;
using WireUp.Circuits.Sessions;
using WireUp.Files;

namespace WireUp.Commands;

/// <summary>What was typed behind <c>--session</c>, <c>--seed</c> and <c>--plot</c>.</summary>
/// <param name="Length">Running time of a session, or null when none is asked for.</param>
/// <param name="Seed">Where the random numbers begin.</param>
/// <param name="Plot">Where the currents are to be drawn, or null when nowhere.</param>
internal sealed record SessionArguments(string? Length, ulong Seed, FileInfo? Plot)
{
    private const double MostHours = 24;

    private static readonly (string Unit, Func<double, Duration> Read)[] Units =
    [
        ("min", minutes => Duration.FromMinutes(minutes)), ("h", hours => Duration.FromHours(hours)), ("s", seconds => Duration.FromSeconds(seconds)),
    ];

    /// <summary>The option <c>--session</c>.</summary>
    public static Option<string?> SessionOption() => new("--session")
    {
        Description = "Show instead what districts and boosters carry in operating sessions of this running time, such as 3h or 90min, in which trains run at random.",
        HelpName = "time",
    };

    /// <summary>The option <c>--seed</c>.</summary>
    public static Option<ulong> SeedOption() => new("--seed")
    {
        Description = "Where the random numbers of the sessions begin; the same seed gives the same result.",
        DefaultValueFactory = _ => new SessionOptions().Seed,
    };

    /// <summary>Options of the sessions, or null when none are asked for.</summary>
    /// <exception cref="InputRefused">The time cannot be read.</exception>
    public SessionOptions? Options => Length is null ? null : new() { Length = Read(Length.Trim()), Seed = Seed };

    private static Duration Read(string text)
    {
        foreach ((string unit, Func<double, Duration> read) in Units.Where(one => text.EndsWith(one.Unit, StringComparison.Ordinal)))
        {
            const NumberStyles plain = NumberStyles.AllowDecimalPoint | NumberStyles.AllowTrailingWhite;
            if (double.TryParse(text[..^unit.Length], plain, CultureInfo.InvariantCulture, out double number) && read(number).Hours is > 0 and <= MostHours)
            {
                return read(number);
            }
        }

        throw new InputRefused($"--session '{text}': expected a time of up to 24 h, such as 3h or 90min");
    }
}
