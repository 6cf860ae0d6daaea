using WireUp.Benchmarks.Faults;
using WireUp.Layouts;

namespace WireUp.Faults.Tests.Truth;

public sealed class Scratch
{
    [Fact]
    public void Try()
    {
        int count = int.Parse(Environment.GetEnvironmentVariable("TRIALS") ?? "20");
        Layout layout = LayoutFile.Read(RepoFiles.ReadText("sample-layouts/tarrow-valley-as-built.layout.yaml"), "x").Document!.Layout;
        var watch = System.Diagnostics.Stopwatch.StartNew();
        FaultDraw draw = new(layout);
        Console.WriteLine($"hypotheses {draw.Hypotheses.Length} open {watch.ElapsedMilliseconds} ms");
        Random random = new(1);
        int[] first = new int[6], third = new int[6], group = new int[6];
        double[] ms = new double[6];
        for (int t = 0; t < count; t++)
        {
            var (fault, symptom) = draw.Next(random);
            FaultTrial trial = new([fault], symptom, t);
            string truth = draw.Hypotheses[fault.Hypothesis].Part.Element.Place;
            Console.WriteLine($"#{t} {truth} {draw.Hypotheses[fault.Hypothesis].State} {fault.Value:g3}; {symptom}");
            for (int step = 0; step <= 4; step++)
            {
                watch.Restart();
                trial.Diagnose(layout, new());
                ms[step] += watch.ElapsedMilliseconds;
                var d = trial.Diagnosis!;
                var places = d.Faults.Select(f => f.Parts[0].Element.Place).Distinct().ToList();
                int rank = places.IndexOf(truth);
                var own = d.Faults.FirstOrDefault(f => f.Parts[0].Element.Place == truth);
                bool inGroup = own is not null && own.Group == d.Faults[0].Group;
                if (rank == 0) first[step]++;
                if (rank is >= 0 and < 3) third[step]++;
                if (inGroup) group[step]++;
                Console.WriteLine($"  {step}: rank {rank} p {own?.Probability:g3} group {inGroup}; top {d.Faults[0].Parts[0].Element.Place} {d.Faults[0].Parts[0].State} {d.Faults[0].Probability:g3}; none {d.NothingWrong:g2} other {d.NotInModel:g2} bits {d.Bits:g3}");
                if (step < 4)
                {
                    var next = d.Next[0];
                    double v = draw.Predict([fault], next.Reading);
                    trial.TakeDown(next.Reading, v);
                    Console.WriteLine($"     next {next.Words} ({next.Bits:g3} bits {next.Minutes} min) -> {v:g4}");
                }
            }
        }
        Console.WriteLine($"drawn {draw.Drawn}");
        for (int s = 0; s <= 4; s++) Console.WriteLine($"step {s}: first {100.0 * first[s] / count:f1} three {100.0 * third[s] / count:f1} group {100.0 * group[s] / count:f1} ms {ms[s] / count:f0}");
    }
}
