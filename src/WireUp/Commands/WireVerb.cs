using System.CommandLine;
using WireUp.Circuits;
using WireUp.Layouts;
using WireUp.Layouts.Reference;
using WireUp.Output;

namespace WireUp.Commands;

/// <summary><c>wireup wire</c>: which size of wire for a pair of some length at some current.</summary>
internal sealed class WireVerb(Terminal terminal)
{
    /// <summary>The verb's arguments, options and help.</summary>
    public static Command Command()
    {
        Argument<string> length = new("length") { Description = "Length of the pair, one way: '12 m', '40 ft'." };
        Argument<string> current = new("current") { Description = "Working current: '5 A'." };
        Option<string?> volts = new("--volts") { Description = "Track voltage without load; 15 V if left out." };
        Option<string?> drop = new("--max-drop") { Description = "Drop allowed: '3 %'; 5 % if left out." };
        Option<string?> trip = new("--trip") { Description = "Current at which the breaker before it trips; 1.5 times the working current if left out." };
        Option<string?> temperature = new("--temperature") { Description = "Of the copper: '40 degC'; 20 degC if left out." };
        Option<LengthStyle?> lengths = new("--lengths") { Description = "Lengths told in metric units or in feet and inches; as typed if left out.", HelpName = "metric|feet" };
        Option<bool> json = Common.Json();
        VerbCommand command = new("wire", """
            Says which wire will do for a pair of some length at some current.

            Compares every usual size: drop there and back, current of a coin across the far end, and what the wire may carry for
            good among others. For low-voltage track power only; no advice on mains wiring.

            Examples:
              wireup wire '12 m' '5 A'
              wireup wire '40 ft' '3 A' --volts '14.5 V' --trip '4 A'
              wireup wire '8 m' '8 A' --max-drop '3 %' --temperature '40 degC'

            Ends with 0 when a size will do, 1 when none does, 2 when something typed cannot be read.
            """)
        {
            length, current, volts, drop, trip, temperature, lengths, json,
        };
        command.Runs<WireVerb>((verb, parsed, _) => Task.FromResult(verb.Run(
            Question(
                parsed.GetRequiredValue(length), parsed.GetRequiredValue(current),
                parsed.GetValue(volts), parsed.GetValue(drop), parsed.GetValue(trip), parsed.GetValue(temperature)),
            parsed.GetValue(lengths) ?? LengthStyles.OfText(parsed.GetRequiredValue(length)),
            parsed.GetValue(json))));
        return command;
    }

    private static WireQuestion Question(string length, string current, string? volts, string? drop, string? trip, string? temperature)
    {
        WireQuestion question = new(Common.Value(LayoutWords.Length(length), $"'{length}'"), Common.Value(LayoutWords.Current(current), $"'{current}'"));
        question = volts is null ? question : question with { Volts = Common.Value(LayoutWords.Volts(volts), $"--volts '{volts}'") };
        question = drop is null ? question : question with { MaxDrop = Common.Value(LayoutWords.Percent(drop), $"--max-drop '{drop}'") };
        question = trip is null ? question : question with { Trip = Common.Value(LayoutWords.Current(trip), $"--trip '{trip}'") };
        return temperature is null ? question : question with { Temperature = Common.Value(LayoutWords.Temperature(temperature), $"--temperature '{temperature}'") };
    }

    private int Run(WireQuestion question, LengthStyle lengths, bool json)
    {
        System.Collections.Immutable.ImmutableArray<WireRow> rows = WireTable.Of(question);
        System.Collections.Immutable.ImmutableArray<Wire> thinnest = WireTable.Thinnest(rows);
        if (json)
        {
            terminal.Json(ResultJson.Wires(rows));
        }
        else
        {
            terminal.Markup(thinnest.IsEmpty
                ? "[bold red]No usual size will do[/]: put a booster nearer, share the current out over two pairs, or allow more drop."
                : $"Thinnest that will do: [bold]{Words.Plain(string.Join(" or ", thinnest))}[/].");
            terminal.Markup(Words.Plain($"For a pair {lengths.Say(question.Length.Meters)} long, {lengths.Say(2 * question.Length.Meters)} of wire, at {Words.Number(question.Current.Amperes, "A")}:"));
            terminal.Show(Tables.Wires(rows));
            terminal.Markup(Words.Plain(
                $"Copper by gauge: ASTM B258 and 1/58 ohm mm2/m (IEC 60028). Metric sizes: largest resistance of IEC 60228, class 5. "
                + $"Current for good: {Constants.BundledCurrentDensity.Value:0} A/mm2 among other wires, common practice, no published source; your local code comes first."));
        }

        return thinnest.IsEmpty ? ExitCode.Findings : ExitCode.Fine;
    }
}
