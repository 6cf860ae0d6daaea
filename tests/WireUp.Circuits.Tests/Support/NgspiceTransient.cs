using System.Globalization;

namespace WireUp.Circuits.Tests.Support;

/// <summary>Lets the circuit simulator follow one quantity through time.</summary>
internal static class NgspiceTransient
{
    /// <summary>Times in seconds and values of an expression, such as <c>v(end)</c> or <c>-i(vsource)</c>, from initial conditions as stated.</summary>
    /// <param name="elements">The lines of the netlist, without title and commands.</param>
    /// <param name="expression">What to follow.</param>
    /// <param name="stepSeconds">Longest time step, seconds.</param>
    /// <param name="forSeconds">How long, seconds.</param>
    internal static (double Seconds, double Value)[] Follow(IEnumerable<string> elements, string expression, double stepSeconds, double forSeconds)
    {
        string program = OutsideTools.RequireNgspice();
        string folder = Directory.CreateTempSubdirectory("wireup-spice-").FullName;
        try
        {
            string file = Path.Combine(folder, "transient.cir"), table = Path.Combine(folder, "table.txt");
            string step = stepSeconds.ToString("R", CultureInfo.InvariantCulture), end = forSeconds.ToString("R", CultureInfo.InvariantCulture);
            File.WriteAllText(file, string.Join('\n', ["* transient", .. elements,
                ".options reltol=1e-5", ".control", "set wr_singlescale", "set numdgt=12", $"tran {step} {end} 0 {step} uic", $"wrdata {table} {expression}", "quit", ".endc", ".end", ""]));
            Ngspice.Run(program, file);
            return [.. File.ReadLines(table).Select(Row)];
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>The value at a time, on straight lines between the simulator's steps.</summary>
    internal static double At(this (double Seconds, double Value)[] course, double seconds)
    {
        int after = Array.FindIndex(course, point => point.Seconds >= seconds);
        if (after <= 0)
        {
            return after == 0 ? course[0].Value : course[^1].Value;
        }

        ((double t0, double v0), (double t1, double v1)) = (course[after - 1], course[after]);
        return t1 == t0 ? v1 : v0 + ((v1 - v0) * (seconds - t0) / (t1 - t0));
    }

    private static (double Seconds, double Value) Row(string line)
    {
        string[] words = line.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return (double.Parse(words[0], NumberStyles.Float, CultureInfo.InvariantCulture), double.Parse(words[1], NumberStyles.Float, CultureInfo.InvariantCulture));
    }
}
